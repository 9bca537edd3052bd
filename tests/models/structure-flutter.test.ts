// Flutter of panels, divergence, control surfaces: printed examples, limit cases, what must hold, and what is refused.
import { standardAtmosphere } from '@ductwright/models/atmosphere/standard-atmosphere'
import type { LiftingPanel } from '@ductwright/models/structure/airframe-structure'
import { controlFlutterSpeed, reducedFrequency, surfaceFrequency } from '@ductwright/models/structure/control-flutter'
import { hingeMoment, torquePressure } from '@ductwright/models/structure/control-forces'
import { divergencePressure, divergenceSpeed } from '@ductwright/models/structure/divergence'
import {
  bredtTorsionConstant,
  flutterSpeed,
  panelFlutterSpeed,
  panelShearModulus,
  plateFlutterSpeed,
} from '@ductwright/models/structure/flutter'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { CLASSES, classAileron, classStructure, structures } from './airframe-classes.js'
import { type AuthorityRow, authorityTable, relativeError } from './authority-table.js'
import { DEGREE, KMH } from './believable-parts.js'

const SEA_LEVEL = standardAtmosphere(0)
const { wing: WING } = classStructure('composite_sport')
const grows = fc.double({ min: 1.001, max: 3, noNaN: true })

describe('flutter of a solid plate (NACA TN 4197, eq. 18)', () => {
  const table = authorityTable('flutter')
  const inputs = (row: AuthorityRow) => {
    const length = (column: string) => row.number(column) * row.number('unit_m')
    return {
      plate: {
        semispan: length('semispan'),
        rootChord: length('root_chord'),
        tipChord: length('tip_chord'),
        thickness: length('thickness'),
        massOffset: row.number('mass_offset'),
      },
      modulus: row.number('shear_modulus') * row.number('unit_pa'),
      air: {
        pressure: row.number('pressure') * row.number('unit_pa'),
        soundSpeed: row.number('sound_speed') * row.number('unit_m_s'),
      },
    }
  }

  it.each(table.rows)('speed as computed and as printed, row %#', (row) => {
    const { plate, modulus, air } = inputs(row)
    const found = plateFlutterSpeed(plate, modulus, air) / row.number('unit_m_s')
    expect(relativeError(found, row.number('flutter_speed'))).toBeLessThan(table.tolerance)
    expect(relativeError(found, row.number('printed_speed'))).toBeLessThan(3e-4)
  })

  it('the form with 1.337 in circulation says √2 times as much', () => {
    for (const row of table.rows) {
      const { plate, modulus, air } = inputs(row)
      const usual = { ...plate, massOffset: 0.25 }
      const aspect = (2 * plate.semispan) / (plate.rootChord + plate.tipChord)
      const taper = plate.tipChord / plate.rootChord
      const ratio = plate.thickness / plate.rootChord
      const scale = (1.337 * aspect ** 3 * air.pressure * (taper + 1)) / (2 * (aspect + 2) * ratio ** 3)
      const popular = air.soundSpeed * Math.sqrt(modulus / scale)
      expect(popular / plateFlutterSpeed(usual, modulus, air)).toBeCloseTo(Math.SQRT2, 3)
    }
  })

  it('refuses plates without chord, thickness or taper', () => {
    const plate = { semispan: 0.18, rootChord: 0.16, tipChord: 0.08, thickness: 0.003, massOffset: 0.25 }
    const speed = (changes: Partial<typeof plate>) => () => plateFlutterSpeed({ ...plate, ...changes }, 3e9, SEA_LEVEL)
    expect(speed({})).not.toThrow()
    expect(speed({ rootChord: 0 })).toThrow(new RangeError('root chord must be finite and above 0 m, got 0'))
    expect(speed({ tipChord: 0.2 })).toThrow(/^taper must be above 0 and at most 1, got 1\.25$/)
    expect(speed({ thickness: -0.003 })).toThrow(/^thickness ratio must be above 0/)
    expect(() => plateFlutterSpeed(plate, 0, SEA_LEVEL)).toThrow(/^shear modulus must be finite and above 0 Pa/)
  })
})

describe('flutter of a built-up panel', () => {
  it('is the same in GJ written out: ρV² = π·GJ·(A + 2)/(2·ε·l²·c²·A·(λ + 1))', () => {
    fc.assert(
      fc.property(structures, ({ wing, tail }) => {
        for (const panel of [wing, tail] as LiftingPanel[]) {
          const { semispan, chord, taper, torsionalStiffness, massOffset } = panel
          const aspect = semispan / chord
          const pressure =
            (Math.PI * torsionalStiffness * (aspect + 2)) /
            (2 * massOffset * semispan ** 2 * chord ** 2 * aspect * (taper + 1))
          const speed = panelFlutterSpeed(panel, SEA_LEVEL)
          // Density 1.225 and κp/a² agree to six digits.
          expect(relativeError(SEA_LEVEL.density * speed * speed, pressure)).toBeLessThan(1e-5)
        }
      }),
    )
  })

  it('falls with lower stiffness as its root, and does not depend on thickness', () => {
    fc.assert(
      fc.property(structures, grows, ({ wing }, times) => {
        const speed = panelFlutterSpeed(wing, SEA_LEVEL)
        const softer = panelFlutterSpeed({ ...wing, torsionalStiffness: wing.torsionalStiffness / times }, SEA_LEVEL)
        expect(softer).toBeLessThan(speed)
        expect(relativeError(softer, speed / Math.sqrt(times))).toBeLessThan(1e-12)
        const thinner = panelFlutterSpeed({ ...wing, thicknessRatio: wing.thicknessRatio / times }, SEA_LEVEL)
        expect(relativeError(thinner, speed)).toBeLessThan(1e-12)
      }),
    )
  })

  it('changes with height as a·√(p0/p): the true air speed rises', () => {
    fc.assert(
      fc.property(structures, fc.double({ min: 100, max: 4000, noNaN: true }), ({ wing }, height) => {
        const air = standardAtmosphere(height)
        const ratio = panelFlutterSpeed(wing, air) / panelFlutterSpeed(wing, SEA_LEVEL)
        const expected = (air.soundSpeed / SEA_LEVEL.soundSpeed) * Math.sqrt(SEA_LEVEL.pressure / air.pressure)
        expect(relativeError(ratio, expected)).toBeLessThan(1e-12)
        expect(ratio).toBeGreaterThan(1)
      }),
    )
  })

  it('falls as the mass moves aft and as the panel grows longer', () => {
    const speed = (changes: Partial<LiftingPanel>) => panelFlutterSpeed({ ...WING, ...changes }, SEA_LEVEL)
    expect(speed({ massOffset: 0.3 })).toBeLessThan(speed({ massOffset: 0.15 }))
    expect(speed({ semispan: 0.6 })).toBeLessThan(speed({ semispan: 0.4 }))
  })

  it('refuses what it does not hold for, by quantity, rule and value', () => {
    const speed = (changes: Partial<LiftingPanel>) => () => panelFlutterSpeed({ ...WING, ...changes }, SEA_LEVEL)
    expect(speed({ torsionalStiffness: -45 })).toThrow(
      new RangeError('torsional stiffness must be finite and above 0 N·m², got -45'),
    )
    expect(speed({ chord: 0 })).toThrow(/^mean chord must be finite and above 0 m, got 0$/)
    expect(speed({ semispan: Number.NaN })).toThrow(/^exposed semispan .* got NaN$/)
    expect(speed({ taper: 0 })).toThrow(/^taper must be above 0 and at most 1, got 0$/)
    expect(speed({ taper: 1.01 })).toThrow(/^taper /)
    expect(speed({ thicknessRatio: 0 })).toThrow(/^thickness ratio /)
    // Balanced at or ahead of the quarter chord: no promise that it never flutters.
    expect(speed({ massOffset: 0 })).toThrow(/^offset of the centre of mass must be above 0 and at most 0\.75, got 0$/)
    const shape = WING
    expect(() => flutterSpeed(shape, 1e8, { pressure: 0, soundSpeed: 340 })).toThrow(/^air pressure /)
    expect(() => flutterSpeed(shape, 1e8, { pressure: 101325, soundSpeed: -1 })).toThrow(/^speed of sound /)
  })
})

describe('torsion constant of a thin skin (Bredt)', () => {
  it('of a thin tube is 2π·r³·t', () => {
    const radius = 0.02
    const skin = 3e-4
    const found = bredtTorsionConstant(Math.PI * radius ** 2, skin, 2 * Math.PI * radius)
    expect(relativeError(found, 2 * Math.PI * radius ** 3 * skin)).toBeLessThan(1e-12)
  })

  it('of a 0.3 mm glass wing, knocked down to 0.35, is the stiffness of the composite class (assumed)', () => {
    const { chord, thicknessRatio, torsionalStiffness } = WING
    // A section 0.1 thick encloses about 0.68 of chord times thickness and is 2.05 chords around; glass 4 to 5 GPa.
    const torsion = bredtTorsionConstant(0.68 * chord * chord * thicknessRatio, 3e-4, 2.05 * chord)
    expect(0.35 * 4e9 * torsion).toBeLessThan(torsionalStiffness * 1.02)
    expect(0.35 * 5e9 * torsion).toBeGreaterThan(torsionalStiffness * 0.98)
  })

  it('of a solid core alone the foam wing would flutter long before its class does (assumed)', () => {
    const { wing } = classStructure('foam_sport')
    const core = panelFlutterSpeed({ ...wing, torsionalStiffness: 2 }, SEA_LEVEL)
    expect(core / KMH).toBeGreaterThan(135)
    expect(core / KMH).toBeLessThan(155)
    expect(panelShearModulus(wing)).toBeGreaterThan(panelShearModulus({ ...wing, torsionalStiffness: 2 }))
  })

  it('refuses an open or empty section', () => {
    expect(() => bredtTorsionConstant(0, 3e-4, 0.4)).toThrow(/^enclosed area /)
    expect(() => bredtTorsionConstant(0.003, -3e-4, 0.4)).toThrow(/^skin thickness /)
    expect(() => bredtTorsionConstant(0.003, 3e-4, 0)).toThrow(/^perimeter /)
  })
})

describe('divergence (Hodges & Pierce; Megson)', () => {
  const table = authorityTable('divergence')

  it.each(table.rows)('dynamic pressure and speed, row %#', (row) => {
    const wing = {
      semispan: row.number('length_m'),
      chord: row.number('chord_m'),
      torsionalStiffness: row.number('torsional_stiffness_nm2'),
      elasticOffset: row.number('offset_m') / row.number('chord_m'),
      liftSlope: row.number('lift_slope'),
    }
    const support = row.text('support') === 'root' ? 'root' : 'both-ends'
    expect(relativeError(divergenceSpeed(wing, 1.225, support), row.number('speed_m_s'))).toBeLessThan(table.tolerance)
    if (row.text('pressure_pa') !== '') {
      expect(relativeError(divergencePressure(wing, support), row.number('pressure_pa'))).toBeLessThan(2e-5)
    }
  })

  it('is the smallest eigenvalue of the twist equation, found by shooting', () => {
    // GJ·θ″ + q·e·c·a0·θ = 0, θ(0) = 0, θ′(l) = 0: at the critical pressure the slope at the tip has fallen to nothing.
    const { semispan, chord, torsionalStiffness, elasticOffset, liftSlope } = WING
    const tipSlope = (pressure: number) => {
      const k = (pressure * elasticOffset * chord * chord * liftSlope) / torsionalStiffness
      const step = semispan / 4000
      let [twist, slope] = [0, 1]
      for (let i = 0; i < 4000; i++) {
        const half = twist + 0.5 * step * slope
        slope -= step * k * half
        twist = half + 0.5 * step * slope
      }
      return slope
    }
    const critical = divergencePressure(WING)
    expect(tipSlope(0.999 * critical)).toBeGreaterThan(0)
    expect(tipSlope(1.001 * critical)).toBeLessThan(0)
  })

  it('held at both ends a wing takes four times the pressure; an axis at or ahead of the quarter chord never diverges', () => {
    expect(relativeError(divergencePressure(WING, 'both-ends'), 4 * divergencePressure(WING))).toBeLessThan(1e-12)
    expect(divergenceSpeed({ ...WING, elasticOffset: 0 }, 1.225)).toBe(Number.POSITIVE_INFINITY)
    expect(divergenceSpeed({ ...WING, elasticOffset: -0.05 }, 1.225)).toBe(Number.POSITIVE_INFINITY)
  })

  it('refuses negative stiffness, no chord, no lift and an offset that is no number', () => {
    const found = (changes: Partial<typeof WING>) => () => divergencePressure({ ...WING, ...changes })
    expect(found({ torsionalStiffness: -1 })).toThrow(/^torsional stiffness .* got -1$/)
    expect(found({ chord: 0 })).toThrow(/^mean chord /)
    expect(found({ semispan: 0 })).toThrow(/^exposed semispan /)
    expect(found({ liftSlope: 0 })).toThrow(/^lift slope must be finite and above 0 1\/rad, got 0$/)
    expect(found({ elasticOffset: Number.NaN })).toThrow(/^offset of the elastic axis .* got NaN$/)
    expect(() => divergenceSpeed(WING, 0)).toThrow(/^air density /)
  })
})

describe('control forces (NACA 0009, slope from memory; computed)', () => {
  const table = authorityTable('control-forces')

  it.each(table.rows)('hinge moment, row %#', (row) => {
    const surface = { span: row.number('span_m'), chord: row.number('chord_m') }
    const pressure = 0.5 * 1.225 * (row.number('speed_km_h') * KMH) ** 2
    const found = hingeMoment(surface, row.number('deflection_deg') * DEGREE, pressure)
    expect(relativeError(found, row.number('moment_nm'))).toBeLessThan(table.tolerance)
  })

  it('at the pressure that uses up a servo the moment is its torque over the factor', () => {
    for (const name of CLASSES) {
      const surface = classAileron(name)
      const pressure = torquePressure(surface, 5 * DEGREE, 2)
      expect(hingeMoment(surface, 5 * DEGREE, pressure)).toBeCloseTo(surface.servoTorque / 2, 12)
      expect(torquePressure(surface, 10 * DEGREE, 2)).toBeCloseTo(pressure / 2, 6)
    }
  })

  it('refuses no torque, no deflection, no surface', () => {
    const surface = classAileron('foam_sport')
    expect(() => torquePressure({ ...surface, servoTorque: 0 }, 0.1, 2)).toThrow(/^servo torque .* N·m, got 0$/)
    expect(() => torquePressure(surface, 0, 2)).toThrow(/^deflection /)
    expect(() => torquePressure(surface, 0.1, 0)).toThrow(
      new RangeError('torque factor must be finite and above 0, got 0'),
    )
    expect(() => hingeMoment({ ...surface, span: -0.3 }, 0.1, 1000)).toThrow(/^span of the control surface /)
    expect(() => hingeMoment({ ...surface, chord: 0 }, 0.1, 1000)).toThrow(/^chord of the control surface /)
  })
})

describe('flutter of control surfaces (bound assumed)', () => {
  it('the reduced frequency is one half at the highest speed and falls above it', () => {
    for (const name of CLASSES) {
      const surface = classAileron(name)
      const { chord } = classStructure(name).wing
      const speed = controlFlutterSpeed(surface, chord)
      expect(reducedFrequency(surfaceFrequency(surface), chord, speed)).toBeCloseTo(0.5, 12)
      expect(reducedFrequency(surfaceFrequency(surface), chord, 1.1 * speed)).toBeLessThan(0.5)
    }
  })

  it('a linkage four times as stiff, or a quarter of the inertia, takes twice the speed', () => {
    const surface = classAileron('composite_sport')
    const speed = controlFlutterSpeed(surface, 0.2)
    expect(controlFlutterSpeed({ ...surface, linkageStiffness: 4 * surface.linkageStiffness }, 0.2)).toBeCloseTo(
      2 * speed,
      9,
    )
    expect(controlFlutterSpeed({ ...surface, inertia: surface.inertia / 4 }, 0.2)).toBeCloseTo(2 * speed, 9)
  })

  it('refuses a linkage without stiffness, a surface without inertia, a panel without chord', () => {
    const surface = classAileron('composite_sport')
    expect(() => surfaceFrequency({ ...surface, linkageStiffness: -8 })).toThrow(/^linkage stiffness .* got -8$/)
    expect(() => surfaceFrequency({ ...surface, inertia: 0 })).toThrow(/^inertia about the hinge /)
    expect(() => controlFlutterSpeed(surface, 0)).toThrow(/^mean chord /)
    expect(() => reducedFrequency(800, 0.2, 0)).toThrow(/^speed /)
  })
})
