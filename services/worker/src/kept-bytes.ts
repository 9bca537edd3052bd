// Certificates and kept fronts as bytes, for the store. Rows of a certificate are alike: the quickest level takes them to a
// fifth.
import { deserialize, serialize } from 'node:v8'
import { deflateRawSync, inflateRawSync } from 'node:zlib'
import type { Certificate } from '@ductwright/models/sweep/certificate'
import type { KeptFront } from '@ductwright/pipeline/kept-front'

const LEVEL = 1

export const packed = (value: Certificate | KeptFront): Uint8Array => deflateRawSync(serialize(value), { level: LEVEL })

/** @throws Error when these are no such bytes */
export const unpackedCertificate = (bytes: Uint8Array): Certificate => unpacked(bytes) as Certificate

/** null when it cannot be read, which costs time only. */
export function unpackedFront(bytes: Uint8Array): KeptFront | null {
  try {
    return unpacked(bytes) as KeptFront
  } catch {
    return null
  }
}

const unpacked = (bytes: Uint8Array): unknown => deserialize(inflateRawSync(bytes))
