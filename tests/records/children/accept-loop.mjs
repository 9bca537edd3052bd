// Child of the crash test: writes requests to an embedded store and prints the id of each one that was acknowledged,
// until it is killed. Usage: node accept-loop.mjs <data folder> <catalogue version>

import { openRecords } from '@ductwright/records/open-records'

const [dataFolder, catalogueVersion] = process.argv.slice(2)
const records = await openRecords({ dataFolder })
await records.putCatalogue(catalogueVersion, 'invented', '{}')

for (let n = 0; ; n++) {
  // Some bodies fill more than a page, so that the kill also meets the store in the middle of a long write.
  const body = JSON.stringify({ n, padding: 'x'.repeat(n % 7 === 0 ? 200_000 : 100) })
  const accepted = await records.acceptRequest({
    title: `number ${n}`,
    address: null,
    body,
    bodyHash: String(body.length),
    idempotencyKey: `${process.pid} ${n}`,
    catalogueVersion,
    modelVersion: '1',
  })
  process.stdout.write(`${accepted.request.id}\n`)
}
