// Server-sent events of a request, read from the body of a reply: blocks of lines, parted by an empty one. Comments and
// what is not an event of ours are passed over.

export interface RequestEvent {
  readonly id: string
  readonly ended: boolean
  readonly state: string
  /** 0…1 */
  readonly progress: number
  readonly cause: string | null
}

export async function* readEvents(body: AsyncIterable<Uint8Array>): AsyncGenerator<RequestEvent> {
  const decoder = new TextDecoder()
  let rest = ''
  for await (const piece of body) {
    rest += decoder.decode(piece, { stream: true })
    const blocks = rest.split(/\r?\n\r?\n/)
    rest = blocks.pop() ?? ''
    for (const block of blocks) {
      const event = eventOf(block)
      if (event !== null) yield event
    }
  }
}

function eventOf(block: string): RequestEvent | null {
  const fields = new Map(
    block.split(/\r?\n/).map((line) => {
      const colon = line.indexOf(':')
      return [line.slice(0, Math.max(0, colon)), line.slice(colon + 1).trim()] as const
    }),
  )
  const [id, kind, data] = [fields.get('id'), fields.get('event'), fields.get('data')]
  if (id === undefined || data === undefined || (kind !== 'progress' && kind !== 'ended')) return null
  const { state, progress, cause } = JSON.parse(data) as Partial<RequestEvent>
  return { id, ended: kind === 'ended', state: String(state), progress: Number(progress) || 0, cause: cause ?? null }
}
