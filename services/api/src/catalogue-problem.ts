// Faults of a catalogue as a problem document: the first thousand one by one, the rest as a number.
import type { CatalogueError, CatalogueFault } from '@ductwright/catalogue/catalogue-fault'
import type { Fault } from '@ductwright/contract/fault'
import { inert } from '@ductwright/contract/inert'
import { Problem } from './problems.js'

const SHOWN_FAULTS = 1000

export function catalogueProblem({ faults }: CatalogueError): Problem {
  const shown = faults.slice(0, SHOWN_FAULTS).map(catalogueFault)
  const count = faults.length === 1 ? 'One fault' : `${faults.length} faults`
  const first = shown[0]
  const rest = faults.length > SHOWN_FAULTS ? ` The first ${SHOWN_FAULTS} are listed.` : ''
  return new Problem('invalid-catalogue', `${count}; the first: ${first?.message ?? ''}.${rest}`, { faults: shown })
}

/** With the place as it is told of files beside the pointer. */
export type CatalogueFaultReply = Fault & Pick<CatalogueFault, 'file' | 'line' | 'column'>

function catalogueFault({ file, line, column, rule, value, message, pointer }: CatalogueFault): CatalogueFaultReply {
  const at = [inert(file, 100), line > 0 ? ` line ${line}` : '', column === '' ? '' : `, ${inert(column, 60)}`]
  // JSON has no lines: the pointer tells the row.
  const place = pointer === undefined ? at.join('') : pointer === '' ? 'the body' : inert(pointer, 200)
  return {
    pointer: pointer ?? `/files/${file.replaceAll('~', '~0').replaceAll('/', '~1')}`,
    rule,
    value: inert(value, 80),
    message: `${place}: ${inert(message, 500)}`,
    file,
    line,
    column,
  }
}
