// Where two JSON values differ: one line a value, as `/pointer: was … is …`.
import { shown } from '@ductwright/contract/fault'
import { inert } from '@ductwright/contract/inert'

const missing = Symbol('missing')

export function differences(before: unknown, after: unknown, pointer = ''): string[] {
  if (Object.is(before, after)) return []
  if (!isObject(before) || !isObject(after))
    return [`${inert(pointer || '/')}: was ${words(before)}, is ${words(after)}`]
  const keys = [...new Set([...Object.keys(before), ...Object.keys(after)])].sort()
  return keys.flatMap((key) => differences(at(before, key), at(after, key), `${pointer}/${key}`))
}

const isObject = (value: unknown): value is Record<string, unknown> => typeof value === 'object' && value !== null

const at = (object: Record<string, unknown>, key: string): unknown =>
  Object.hasOwn(object, key) ? object[key] : missing

const words = (value: unknown): string => (value === missing ? 'missing' : inert(shown(value), 90))
