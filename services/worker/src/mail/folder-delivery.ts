// Delivery without a mail server: the message becomes a file that any mail program opens. Written beside its name, forced
// to the disk and then renamed, so a reader never sees half a mail.
import { mkdir, open, rename, rm } from 'node:fs/promises'
import { join } from 'node:path'
import type { Delivery, DeliveryOutcome, OutgoingMail } from './delivery.js'

export class FolderDelivery implements Delivery {
  readonly #folder: string

  constructor(folder: string) {
    this.#folder = folder
  }

  async deliver(mail: OutgoingMail): Promise<DeliveryOutcome> {
    const name = join(this.#folder, `${mail.id}.eml`)
    const part = `${name}.${process.pid}.part`
    try {
      await mkdir(this.#folder, { recursive: true })
      await writeForced(part, mail.mime)
      await rename(part, name)
      return { state: 'written' }
    } catch (error) {
      await rm(part, { force: true }).catch(() => {})
      return { state: 'later', reason: error instanceof Error ? error.message : String(error) }
    }
  }
}

async function writeForced(name: string, text: string): Promise<void> {
  const file = await open(name, 'w')
  try {
    await file.writeFile(text, 'utf8')
    await file.sync()
  } finally {
    await file.close()
  }
}
