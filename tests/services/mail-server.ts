// A mail server for tests that keeps what it was given and misbehaves as told, on a port of this machine only.
import type { AddressInfo, Socket } from 'node:net'
import { SMTPServer, type SMTPServerOptions } from 'smtp-server'

export interface Received {
  readonly from: string
  readonly to: readonly string[]
  readonly mime: string
  readonly secure: boolean
}

/** What the server does with the next messages, first entry first; `accept` once the list is empty. */
export type Behaviour =
  | 'accept'
  | 'drop-after-data'
  | 'drop-before-data'
  | { readonly code: number; readonly at: 'rcpt' | 'data' }

export interface MailServer {
  readonly port: number
  readonly received: readonly Received[]
  readonly behaviours: Behaviour[]
  /** Number of connections seen. */
  connections(): number
  stop(): Promise<void>
}

export async function startMailServer(options: SMTPServerOptions = {}): Promise<MailServer> {
  const received: Received[] = []
  const behaviours: Behaviour[] = []
  const sockets = new Set<Socket>()
  let seen = 0
  const drop = (): void => {
    for (const socket of sockets) socket.destroy()
  }
  const refusal = (at: 'rcpt' | 'data'): (Error & { responseCode: number }) | null => {
    const next = behaviours[0]
    if (typeof next !== 'object' || next.at !== at) return null
    behaviours.shift()
    return Object.assign(new Error('not this one'), { responseCode: next.code })
  }
  const server = new SMTPServer({
    authOptional: true,
    closeTimeout: 200,
    disableReverseLookup: true,
    disabledCommands: ['STARTTLS'],
    onConnect(_session, done) {
      seen += 1
      done()
    },
    onRcptTo(_address, _session, done) {
      done(refusal('rcpt'))
    },
    onData(stream, session, done) {
      if (behaviours[0] === 'drop-before-data') {
        behaviours.shift()
        return drop()
      }
      const chunks: Buffer[] = []
      stream.on('data', (chunk: Buffer) => chunks.push(chunk))
      stream.on('end', () => {
        const refused = refusal('data')
        if (refused !== null) return done(refused)
        const { mailFrom, rcptTo } = session.envelope
        received.push({
          from: mailFrom === false ? '' : mailFrom.address,
          to: rcptTo.map((recipient) => recipient.address),
          mime: Buffer.concat(chunks).toString('utf8'),
          secure: session.secure,
        })
        if (behaviours[0] !== 'drop-after-data') return done()
        behaviours.shift()
        drop()
      })
    },
    ...options,
  })
  server.on('error', () => {})
  server.server.on('connection', (socket: Socket) => {
    sockets.add(socket)
    socket.once('close', () => sockets.delete(socket))
  })
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', () => resolve()))
  const { port } = server.server.address() as AddressInfo
  // The server ends its connections itself: destroying the socket under a TLS session crashes Node 20.
  const stop = (): Promise<void> => new Promise((resolve) => server.close(() => resolve()))
  return { port, received, behaviours, connections: () => seen, stop }
}

/** How a worker reaches a server of these tests without a certificate or a login. */
export const plainSmtp = ({ port }: MailServer) => ({
  host: '127.0.0.1',
  port,
  secure: false,
  requireTls: false,
  auth: null,
  certificateAuthority: null,
})
