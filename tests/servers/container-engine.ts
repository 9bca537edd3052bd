// Whether a container engine really answers. A client program on the PATH proves nothing: only its socket does.

import { createConnection } from 'node:net'
import { join } from 'node:path'
import type { ServerConfig } from './config.js'

type Target = { readonly path: string } | { readonly host: string; readonly port: number }

export async function engineAnswers(config: ServerConfig): Promise<boolean> {
  const answers = await Promise.all(targets(config).map(accepts))
  return answers.includes(true)
}

function targets({ dockerHost, home, runtimeFolder }: ServerConfig): Target[] {
  if (dockerHost?.startsWith('unix://')) return [{ path: dockerHost.slice('unix://'.length) }]
  if (dockerHost !== null) {
    const { hostname, port } = new URL(dockerHost.replace(/^tcp:/, 'http:'))
    return [{ host: hostname, port: Number(port || 2375) }]
  }
  const sockets = ['/var/run/docker.sock']
  if (home !== null) sockets.push(join(home, '.docker/run/docker.sock'))
  if (runtimeFolder !== null) sockets.push(join(runtimeFolder, 'podman/podman.sock'))
  return sockets.map((path) => ({ path }))
}

function accepts(target: Target): Promise<boolean> {
  return new Promise((resolve) => {
    const socket = createConnection({ ...target, timeout: 500 })
    const end = (answer: boolean) => {
      socket.destroy()
      resolve(answer)
    }
    socket.once('connect', () => end(true))
    socket.once('error', () => end(false))
    socket.once('timeout', () => end(false))
  })
}
