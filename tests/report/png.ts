// Reads a PNG of eight bits a channel with transparency, enough to look at its pixels.
import { inflateSync } from 'node:zlib'

export interface Picture {
  readonly width: number
  readonly height: number
  /** Red, green, blue and opacity of each pixel, row by row. */
  readonly pixels: Uint8Array
}

const SIGNATURE = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a])
const CHANNELS = 4

/** Width and height, px. */
export function sizeOfPng(bytes: Uint8Array): readonly [width: number, height: number] {
  const file = Buffer.from(bytes)
  if (!file.subarray(0, 8).equals(SIGNATURE)) throw new RangeError('no PNG')
  return [file.readUInt32BE(16), file.readUInt32BE(20)]
}

/** @throws RangeError for anything else than eight bits, four channels, not interlaced */
export function readPng(bytes: Uint8Array): Picture {
  const file = Buffer.from(bytes)
  const [width, height] = sizeOfPng(file)
  const kind = [...file.subarray(24, 29)].join()
  if (kind !== '8,6,0,0,0') throw new RangeError(`a PNG of another kind: ${kind}`)
  return { width, height, pixels: unfiltered(inflateSync(imageData(file)), width, height) }
}

function imageData(file: Buffer): Buffer {
  const parts: Buffer[] = []
  for (let at = 8; at < file.length; ) {
    const length = file.readUInt32BE(at)
    if (file.toString('latin1', at + 4, at + 8) === 'IDAT') parts.push(file.subarray(at + 8, at + 8 + length))
    at += 12 + length
  }
  return Buffer.concat(parts)
}

/** Undoes the prediction of each row. */
function unfiltered(rows: Buffer, width: number, height: number): Uint8Array {
  const stride = CHANNELS * width
  const pixels = new Uint8Array(stride * height)
  const at = (x: number, y: number) => (x < 0 || y < 0 ? 0 : (pixels[y * stride + x] ?? 0))
  for (let y = 0; y < height; y++) {
    const filter = rows[y * (stride + 1)] ?? 0
    for (let x = 0; x < stride; x++) {
      const [left, up, corner] = [at(x - CHANNELS, y), at(x, y - 1), at(x - CHANNELS, y - 1)]
      pixels[y * stride + x] =
        (rows[y * (stride + 1) + 1 + x] ?? 0) + predicted(filter, left, up, x < CHANNELS || y < 1 ? 0 : corner)
    }
  }
  return pixels
}

function predicted(filter: number, left: number, up: number, corner: number): number {
  if (filter === 1) return left
  if (filter === 2) return up
  if (filter === 3) return (left + up) >> 1
  if (filter !== 4) return 0
  const estimate = left + up - corner
  const [a, b, c] = [left, up, corner].map((value) => Math.abs(estimate - value)) as [number, number, number]
  return a <= b && a <= c ? left : b <= c ? up : corner
}
