// One setup worked through, and the receipt, on a terminal.
import { columns } from '@ductwright/contract/inert'
import type { PhaseFigures, SetupFigures, SetupStudy } from '@ductwright/contract/result'
import { setupReportSchema } from '@ductwright/contract/result-schema'
import type { SetupReport } from '@ductwright/contract/setup'
import { renderReceipt } from '@ductwright/report/receipt'
import { renderSetupReport } from '@ductwright/report/setup-report'
import { describe, expect, it } from 'vitest'
import { setupReport } from './fixture.js'
import { receipt, takenOver } from './fixture-receipt.js'

const flowing = (text: string) => text.replace(/\s+/g, ' ')
const printed = (report: SetupReport) => flowing(renderSetupReport(report))

/** The report with some of its figures, or some of its study, changed. */
function having(figures: Partial<SetupFigures>, study: Partial<SetupStudy> = {}): SetupReport {
  const report = setupReport()
  return { ...report, figures: { ...report.figures!, ...figures }, study: { ...report.study!, ...study } }
}

/** The lines of a section. */
function section(text: string, heading: string): string[] {
  const lines = text.split('\n')
  const start = lines.indexOf(heading.toUpperCase())
  const end = lines.findIndex((line, at) => at > start + 1 && /^-+$/.test(line))
  return lines.slice(start + 2, end < 0 ? undefined : end - 2)
}

describe('setup report', () => {
  it('is tested on a report that the contract allows', () => {
    for (const wish of [{}, { hostile: true }, { refused: true }]) {
      expect(setupReportSchema.safeParse(JSON.parse(JSON.stringify(setupReport(wish)))).error).toBeUndefined()
    }
  })

  it('groups what it tells under headings a pilot looks for', () => {
    const text = renderSetupReport(setupReport())
    const headings = [
      'What it does',
      'Standing on the bench, pack full and warm',
      'Level top speed, pack full and warm',
      'Level top speed at the quoted charge, 80 %',
      'Level top speed on the last pass, charge 20 %',
      'Cruise',
      'Weights and field',
      'Airframe',
      'Temperatures at their highest',
      'Limits used',
      'The flight, phase by phase',
      'What the spread comes from',
      'What top speed responds to',
      'What the label of the pack claims',
      'Drag and speeds of the airframe',
      'The air it flies in',
      'Cost',
      'Assumed',
      'Before you fly',
    ]
    const places = headings.map((heading) => text.indexOf(`\n${heading.toUpperCase()}\n`))
    expect(places).not.toContain(-1)
    expect(places).toEqual([...places].sort((a, b) => a - b))
  })

  it('sets the band beside a figure, rounded outward, in the same unit and decimals', () => {
    const bands = {
      speed_steady_km_h: [340.7, 388.2],
      'top.thrust_n': [31.27, 35.72],
      flight_time_s: [245.9, 280.1],
      ballast_kg: [0.0791, 0.0909],
      margin: [-0.031, 0.291],
    } as const
    const text = printed(having({}, { bands }))
    expect(text).toContain('Steady level speed: 362 km/h (340 to 389)')
    expect(text).toContain('Thrust: 33.3 N (31.2 to 35.8)')
    expect(text).toContain('Flight time to the reserve: 4:23 min (4:05 to 4:41)')
    expect(text).toContain('Ballast: 85 g (79 to 91)')
    expect(text).toContain('25 % below the design load (−4 to 30)')
    expect(text).toContain('Mean current: 52 A Drawn')
  })

  it('shows no band where nothing varies', () => {
    expect(printed(having({}, { bands: { nozzle_exit_mm: [78.46, 78.46] } }))).toContain('across: 78.5 mm Thrust over')
  })

  it('tells odds and the speed allowed for each criterion and limit', () => {
    const text = renderSetupReport(setupReport())
    expect(section(text, 'Airframe').join('\n')).toMatch(/^flutter of the wing +25 % +23 to 27 +432 km\/h$/m)
    const limits = section(text, 'Limits used').join('\n')
    expect(limits).toMatch(/^speed controller current +93 % +87 to 100 +8 in 10$/m)
    expect(limits).toMatch(/^motor winding temperature .* 95 in 100$/m)
    expect(limits).toMatch(/^pack current .* at least 99 in 100$/m)
    expect(flowing(text)).toContain('432 km/h (405 to 463), by flutter of the wing')
  })

  it('lists a limit that only the study has met', () => {
    const holds = [{ limit: 'tip-mach', words: 'fan tip Mach number', odds: 0.41 }]
    expect(renderSetupReport(having({}, { holds }))).toMatch(/^fan tip Mach number +4 in 10$/m)
  })

  it('puts the first move in front of what top speed responds to', () => {
    const report = setupReport()
    const lines = section(renderSetupReport(report), 'What top speed responds to')
    expect(lines[0]).toBe(report.study!.sensitivity.first_move)
    expect(lines.join('\n')).toMatch(/^Fill, sand and polish the skin +42\.90 +8\.6 +24\.5 +81 +6\.4$/m)
    expect(lines.join('\n')).toContain('All of it together: 14.3 km/h more.')
  })

  it('flies the profile phase by phase and says when to be down', () => {
    const lines = section(renderSetupReport(setupReport()), 'The flight, phase by phase')
    expect(lines.filter((line) => /^(take-off|climb|pass|turn|cruise|approach) /.test(line))).toHaveLength(7)
    const text = flowing(lines.join(' '))
    // 3,950 mAh took the packs from full to 21 %; the reserve is 20 %.
    expect(text).toContain('on the ground by 4:47 min or 4,000 mAh drawn, whichever is first')
    expect(text).toContain('full throttle for 42 s in one go, then motor winding temperature ends it')
    expect(text).toContain('at least 19 s of cruise after each pass')
  })

  it.each([
    [{ cool_down_s: null }, 'no cruise between passes is long enough to keep it cool'],
    [{ cool_down_s: 0 }, 'no cooling between passes needed'],
    [{ ended_by: 'underpowered' as const }, 'no time to land by: the packs do not carry the flight to its end'],
    [{ ended_by: 'charge' as const }, 'only the charge for landing and the reserve was left'],
    [{ phases: [] }, 'on the ground by 4:47 min Y'],
    [{ passes: 0, first_pass_km_h: null, last_pass_km_h: null, least_pack_voltage_v: null }, 'pack voltage: not known'],
  ])('says of a flight with %o what that means', (change, words) => {
    const flight = { ...setupReport().study!.flight!, ...change }
    const text = flowing(section(renderSetupReport(having({}, { flight })), 'The flight, phase by phase').join(' '))
    expect(`${text} Y`).toContain(words)
  })

  it('says so when it cannot fly the profile at all', () => {
    expect(printed(having({}, { flight: null }))).toContain('This setup cannot fly the profile.')
  })

  it('says so when the packs no longer carry level flight at the reserve', () => {
    expect(printed(having({ top_last: null }))).toContain('At a charge of 20 % the packs no longer carry level flight')
  })

  it('tells drag term by term with shares, largest first, and a build-up that does not meet the area', () => {
    const lines = section(renderSetupReport(setupReport()), 'Drag and speeds of the airframe')
    const table = lines.flatMap((line) => /^(skin|landing|hinge).*?(\d+\.\d) +(\d+)$/.exec(line)?.slice(1) ?? [])
    expect(table.filter((_, at) => at % 3 === 1)).toEqual(['36.1', '30.5', '17.3', '13.1'])
    expect(table.filter((_, at) => at % 3 === 2)).toEqual(['37', '31', '18', '14'])
    const text = flowing(lines.join(' '))
    expect(text).toContain('Drag area 92.3 cm², solved from the speed you measured, less what clean-up work took off.')
    expect(text).toContain('Its geometry adds up to 97.0 cm²')
    expect(lines.join('\n')).toMatch(/^Seal the hinge gaps with film +10\.90 +4\.5 +16$/m)
  })

  it('says when less is kept free than was wanted, and only then', () => {
    const report = setupReport()
    const wanting = (headroom: number) =>
      printed({
        ...report,
        understood: { ...report.understood, limits: { ...report.understood.limits, headroom } },
      })
    expect(wanting(0.1)).toContain('(7 % free). That is less than the 10 % you want kept free.')
    expect(wanting(0.05)).not.toContain('you want kept free')
  })

  it('gives the reasons, and all that is known, when the setup is refused', () => {
    const report = setupReport({ refused: true })
    const text = printed(report)
    const known = ['Drag area 92.3 cm²', '990 hPa', 'To pay: 771.35 EUR', ...report.assumptions, ...report.cautions]
    for (const words of ['The pack has 12 cells, the speed controller takes 8 at most.', ...known]) {
      expect(text).toContain(words)
    }
    expect(text).not.toMatch(/STANDING|THE FLIGHT|In brackets|not known|undefined|null/)
  })

  it('gives both reasons and figures when parts do not go together but can be worked through', () => {
    const { refused } = setupReport({ refused: true })
    const text = printed({ ...setupReport(), refused })
    expect(text).toContain('The pack has 12 cells, the speed controller takes 8 at most.')
    expect(text).toContain('Steady level speed: 362 km/h')
  })

  it('prints every figure without a band when there is no study', () => {
    const text = printed({ ...setupReport(), study: null })
    expect(text).toContain('Steady level speed: 362 km/h Within')
    expect(text).not.toMatch(/\(\d[\d,.:]* to |In brackets/)
  })

  it('fits 100 columns whatever the names, and stays inert', () => {
    const huge: PhaseFigures = {
      ...setupReport().study!.flight!.phases[0]!,
      phase: 'take-off',
      start_s: 599,
      time_s: 125,
      speed_km_h: 512,
      pack_voltage_v: 58.7,
      pack_current_a: 312,
      motor_current_a: 318,
      pack_power_w: 18_240,
      winding_c: 181,
      case_c: 149,
      esc_c: 121,
    }
    const wide = having({}, { flight: { ...setupReport().study!.flight!, phases: [huge] } })
    const reports = [wide, setupReport({ hostile: true }), setupReport({ hostile: true, refused: true })]
    for (const report of reports) {
      const text = renderSetupReport(report)
      expect(text).not.toMatch(/[^\P{Cc}\n]|[\u202a-\u202e\u2066-\u2069]/u)
      for (const line of text.split('\n')) expect(columns(line)).toBeLessThanOrEqual(100)
    }
  })
})

describe('receipt', () => {
  it('tells time, threads and work, stage by stage', () => {
    const text = renderReceipt(receipt())
    expect(text).toContain('3.20 s on 2 threads')
    expect(text).toContain('8 shards, 45,000 groups judged as a whole, 120,000 setups worked out')
    expect(flowing(text)).toContain(
      'Put away in groups: speed controller current 190,204, a listed setup is no worse in anything 61,204, budget 700 ',
    )
    expect(text).toMatch(/evaluate: +3\.10 s/)
    expect(text).not.toContain('taken over')
  })

  it('says where the list came from when it was taken over, and what was searched again', () => {
    expect(flowing(renderReceipt(takenOver))).toMatch(
      /List taken over: from catalogue version 77e0c4b1\w+; searched again only what has one of 3 changed parts in it /,
    )
  })
})
