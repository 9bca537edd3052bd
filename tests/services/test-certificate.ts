// A self-signed certificate for "localhost", made afresh for a test: the few DER structures of an X.509 certificate over an
// elliptic-curve key.
import { generateKeyPairSync, sign } from 'node:crypto'

export interface TestCertificate {
  readonly key: string
  readonly cert: string
}

export function testCertificate(): TestCertificate {
  const { publicKey, privateKey } = generateKeyPairSync('ec', { namedCurve: 'P-256' })
  const name = sequence(set(sequence(oid('550403'), der(0x0c, Buffer.from('localhost')))))
  const day = 86_400_000
  const validity = sequence(utcTime(Date.now() - day), utcTime(Date.now() + day))
  const ecdsaWithSha256 = sequence(oid('2a8648ce3d040302'))
  const alternativeName = octets(sequence(der(0x82, Buffer.from('localhost'))))
  const extensions = der(0xa3, sequence(sequence(oid('551d11'), alternativeName)))
  const version = der(0xa0, der(0x02, Buffer.from([2])))
  const serial = der(0x02, Buffer.from([1]))
  const keyInfo = publicKey.export({ type: 'spki', format: 'der' })
  const body = sequence(version, serial, ecdsaWithSha256, name, validity, name, keyInfo, extensions)
  const signature = der(0x03, Buffer.concat([Buffer.from([0]), sign('sha256', body, privateKey)]))
  const certificate = sequence(body, ecdsaWithSha256, signature)
  return { key: privateKey.export({ type: 'pkcs8', format: 'pem' }) as string, cert: pem(certificate) }
}

function der(tag: number, content: Buffer): Buffer {
  const { length } = content
  const size = length < 128 ? [length] : length < 256 ? [0x81, length] : [0x82, length >> 8, length & 0xff]
  return Buffer.concat([Buffer.from([tag, ...size]), content])
}

const sequence = (...parts: Buffer[]): Buffer => der(0x30, Buffer.concat(parts))
const set = (...parts: Buffer[]): Buffer => der(0x31, Buffer.concat(parts))
const octets = (content: Buffer): Buffer => der(0x04, content)
const oid = (hex: string): Buffer => der(0x06, Buffer.from(hex, 'hex'))

const utcTime = (at: number): Buffer =>
  der(0x17, Buffer.from(`${new Date(at).toISOString().replace(/[-:T]/g, '').slice(2, 14)}Z`))

const pem = (certificate: Buffer): string => {
  const lines = certificate.toString('base64').match(/.{1,64}/g) ?? []
  return ['-----BEGIN CERTIFICATE-----', ...lines, '-----END CERTIFICATE-----', ''].join('\n')
}
