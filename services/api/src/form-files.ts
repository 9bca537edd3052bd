// The files of a form as bytes, read by the platform's own reader of forms; what they hold is judged as any catalogue is.
import { tables } from '@ductwright/catalogue/tables'
import { type Fault, InputError, shown } from '@ductwright/contract/fault'

/** More parts than a catalogue has tables, with room for a mistake that is then named. */
const FORM_PARTS_MAX = 3 * tables.length

/**
 * The files of a form body. A part without a file name counts as a file named like its field.
 * @throws InputError when it is no form, or holds a file twice
 */
export async function formFiles(contentType: string, body: Uint8Array): Promise<Map<string, Uint8Array>> {
  const files = new Map<string, Uint8Array>()
  const faults: Fault[] = []
  for (const [field, part] of await formParts(contentType, body)) {
    const name = typeof part === 'string' ? field : part.name
    const content = typeof part === 'string' ? new TextEncoder().encode(part) : new Uint8Array(await part.arrayBuffer())
    if (files.has(name)) faults.push(formFault('duplicate-file', name, 'is in the form twice'))
    files.set(name, content)
  }
  if (faults.length > 0) throw new InputError('the form', faults)
  return files
}

async function formParts(contentType: string, body: Uint8Array): Promise<[string, string | File][]> {
  const form = await new Response(body, { headers: { 'content-type': contentType } }).formData().catch(() => null)
  if (form === null)
    throw new InputError('the form', [formFault('form', '', 'is not a form that can be read: check its boundary')])
  const parts = [...form.entries()] as [string, string | File][]
  if (parts.length <= FORM_PARTS_MAX) return parts
  throw new InputError('the form', [formFault('parts', '', `has more than ${FORM_PARTS_MAX} parts`)])
}

const formFault = (rule: string, value: string, message: string): Fault => ({
  pointer: '/files',
  rule,
  value: value === '' ? '' : shown(value),
  message,
})
