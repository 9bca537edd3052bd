// Exactly one mail address, judged by our rule and by the parser of the mail library it is handed to.
import { createRequire } from 'node:module'
import { singleAddress } from '@ductwright/contract/address'
import { InputError } from '@ductwright/contract/fault'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { faultsOf } from './faults-of.js'

const require = createRequire(new URL('../../libs/report/package.json', import.meta.url))
const library = require('nodemailer/lib/addressparser') as
  | ((text: string) => readonly { readonly address: string }[])
  | { readonly default: (text: string) => readonly { readonly address: string }[] }
const parseAddresses = typeof library === 'function' ? library : library.default

describe('a mail address', () => {
  it.each(['pilot@example.org', 'a.b+c_d@sub.example.co.uk', "o'neill@example.org", 'x@xn--bcher-kva.example'])(
    'takes %s',
    (text) => {
      expect(singleAddress(text)).toBe(text)
    },
  )

  it('folds the domain to lower case and keeps the part before the @', () => {
    expect(singleAddress('Pilot.One@Example.ORG')).toBe('Pilot.One@example.org')
  })

  it.each([
    'a@b.co, c@d.co',
    'a@b.co;c@d.co',
    'a@b.co c@d.co',
    'a@b.co@c.de',
    'Pilot <pilot@example.org>',
    '<pilot@example.org>',
    '"a,b"@example.org',
    'pilot@example.org (comment)',
    'group: pilot@example.org;',
    'pilot',
    'pilot@',
    '@example.org',
    'pilot@localhost',
    'pilot@127.0.0.1',
    'pilot@[127.0.0.1]',
    'pilot@-example.org',
    'pilot@example..org',
    '.pilot@example.org',
    'pi..lot@example.org',
    'pilot@exämple.org',
    ' pilot@example.org',
    '',
    `${'a'.repeat(65)}@example.org`,
    `a@${'b'.repeat(60)}.${'c'.repeat(60)}.${'d'.repeat(60)}.${'e'.repeat(60)}.example.org`,
  ])('refuses %j', (text) => {
    expect(faultsOf(() => singleAddress(text)).map((fault) => fault.rule)).toEqual(['address'])
  })

  it.each(['pilot@example.org\r\nBcc: x@y.co', 'pilot@example.org\n', 'pilot\u0000@example.org', 'a@b.co\u2028c@d.co'])(
    'refuses %j for its control characters',
    (text) => {
      expect(faultsOf(() => singleAddress(text)).map((fault) => fault.rule)).toEqual(['control-character'])
    },
  )

  it('means one and the same mailbox to the mail library, whatever was taken', () => {
    const piece = fc.string({ unit: fc.constantFrom(...'ab1.,;:<>()"\'\\@ !#$%&*+-/=?^_`{|}~\t\n') })
    const looks = fc.tuple(piece, piece).map(([local, domain]) => `${local}@${domain}.org`)
    const good = fc.emailAddress()
    let taken = 0
    fc.assert(
      fc.property(fc.oneof(looks, good), (text) => {
        let address: string
        try {
          address = singleAddress(text)
        } catch (error) {
          expect(error).toBeInstanceOf(InputError)
          return
        }
        taken++
        expect(parseAddresses(address).map((entry) => entry.address)).toEqual([address])
      }),
      { numRuns: 2000, seed: 20 },
    )
    expect(taken).toBeGreaterThan(200)
  })
})
