// The demonstration catalogue: enough of everything, made again byte for byte, coherent, with good and bad buys.

import { fanGate, gateFigures } from '@ductwright/catalogue/fan-gate'
import { catalogueFiles } from '@ductwright/catalogue/generate/catalogue-files'
import { demoPlan } from '@ductwright/catalogue/generate/demo-plan'
import { demoCatalogueFolder, readCatalogue, readCatalogueFolder } from '@ductwright/catalogue/read-catalogue'
import { describe, expect, it } from 'vitest'
import { demoFiles } from './edit-tables.js'

const catalogue = readCatalogue(demoFiles)
const RPM = Math.PI / 30

function family(id: string): string {
  return id
    .split('-')
    .slice(1, -1)
    .join('-')
    .replace(/-?\d.*$/, '')
}

describe('the demonstration catalogue', () => {
  it('holds enough to choose from', () => {
    expect(catalogue.fans.length).toBeGreaterThanOrEqual(30)
    expect(catalogue.motors.length).toBeGreaterThanOrEqual(60)
    expect(catalogue.escs.length).toBeGreaterThanOrEqual(30)
    expect(catalogue.packs.length).toBeGreaterThanOrEqual(60)
    expect(catalogue.airframes.length).toBeGreaterThanOrEqual(6)
    expect(catalogue.sets.length).toBeGreaterThanOrEqual(8)
    expect(catalogue.currency).toBe('EUR')
    const sizes = catalogue.fans.map(({ part }) => Math.round(part.tipDiameter * 1000))
    expect(Math.min(...sizes)).toBe(50)
    expect(Math.max(...sizes)).toBe(120)
  })

  it('is the same bytes when written again', () => {
    expect(catalogueFiles(demoPlan)).toEqual(demoFiles)
  })

  it('reads the same from its folder', async () => {
    expect(await readCatalogueFolder(demoCatalogueFolder)).toEqual(catalogue)
  })

  it('lists parts by id in code-unit order', () => {
    for (const list of [catalogue.fans, catalogue.motors, catalogue.escs, catalogue.packs, catalogue.airframes]) {
      const ids = list.map(({ part }) => part.id)
      expect(ids).toEqual([...ids].sort())
    }
  })
})

describe('demonstration fans', () => {
  it.each(catalogue.fans.map(({ part }) => [part.id, part] as const))('%s passes the gate', (_id, fan) => {
    expect(fanGate(fan)).toEqual([])
    expect(gateFigures(fan).deHaller).toBeLessThan(0.8)
  })

  it('weigh and cost more with size, family by family', () => {
    for (const name of new Set(catalogue.fans.map(({ part }) => family(part.id)))) {
      const members = catalogue.fans.filter(({ part }) => family(part.id) === name)
      members.sort((a, b) => a.part.tipDiameter - b.part.tipDiameter)
      for (const [i, larger] of members.slice(1).entries()) {
        const smaller = members[i]!
        // A step of 10 % in size is 24 % in mass by the law, more than the scatter takes back.
        if (larger.part.tipDiameter < 1.1 * smaller.part.tipDiameter) continue
        expect(larger.part.mass, larger.part.id).toBeGreaterThan(smaller.part.mass)
        expect(larger.price, larger.part.id).toBeGreaterThan(smaller.price)
      }
    }
  })

  it('offer a dear fan that is no better than a cheaper one of its size', () => {
    const badBuy = catalogue.fans.some((dear) =>
      catalogue.fans.some(
        (cheap) =>
          cheap.part.tipDiameter === dear.part.tipDiameter &&
          cheap.price < dear.price &&
          cheap.part.etaPeak > dear.part.etaPeak &&
          cheap.part.mass <= dear.part.mass,
      ),
    )
    expect(badBuy).toBe(true)
  })
})

describe('demonstration motors', () => {
  it.each(catalogue.motors.map(({ part }) => [part.id, part] as const))('%s follows the motor laws', (_id, motor) => {
    const constantSquared = 1 / (motor.speedConstant ** 2 * motor.resistance)
    const law = 6.5e-3 * (motor.mass / 0.33) ** (5 / 3)
    // Quality .85–1.15, scatter ±5 %, rounding to three digits.
    expect(constantSquared / law).toBeGreaterThan(0.8)
    expect(constantSquared / law).toBeLessThan(1.23)
    const volume = (Math.PI / 4) * motor.canDiameter ** 2 * motor.canLength
    expect(motor.mass / volume / 4500).toBeGreaterThan(0.96)
    expect(motor.mass / volume / 4500).toBeLessThan(1.04)
    const slenderness = motor.canLength / motor.canDiameter
    expect(slenderness).toBeGreaterThanOrEqual(1.28)
    expect(slenderness).toBeLessThanOrEqual(2.03)
    expect(motor.powerLimit / motor.mass).toBeGreaterThan(13_000)
    expect(motor.powerLimit / motor.mass).toBeLessThan(16_800)
  })

  it('all fit a fan of the catalogue', () => {
    const homeless = catalogue.motors.filter(
      ({ part: motor }) =>
        !catalogue.fans.some(
          ({ part: fan }) => fan.motorCanLimit >= motor.canDiameter && fan.shaftBore === motor.shaftDiameter,
        ),
    )
    expect(homeless).toEqual([])
  })

  it('for a 90 mm fan on twelve cells aim at about 42,000 rpm', () => {
    const twelve = catalogue.motors.filter(
      ({ part }) => part.canDiameter > 0.0355 && part.canDiameter < 0.0385 && part.cellsMax === 14,
    )
    expect(twelve.length).toBeGreaterThan(1)
    for (const { part } of twelve) {
      const rpm = (part.speedConstant / RPM) * 12 * 3.57
      expect(rpm, part.id).toBeGreaterThan(40_000)
      expect(rpm, part.id).toBeLessThan(46_000)
      expect(part.speedLimit / RPM, part.id).toBeGreaterThan(rpm)
    }
  })
})

describe('demonstration speed controllers', () => {
  it.each(catalogue.escs.map(({ part }) => [part.id, part] as const))('%s follows the controller laws', (_id, esc) => {
    const law = 0.22 / esc.currentLimit
    expect(esc.resistance / law).toBeGreaterThan(0.8)
    expect(esc.resistance / law).toBeLessThan(1.25)
    if (esc.cellsMax > 8 && esc.receiverSupplyCurrent > 0) expect(esc.cellsMax).toBeLessThanOrEqual(12)
  })

  it('are sold with and without a receiver supply', () => {
    expect(catalogue.escs.some(({ part }) => part.receiverSupplyCurrent === 0)).toBe(true)
    expect(catalogue.escs.some(({ part }) => part.receiverSupplyCurrent > 0)).toBe(true)
  })
})

describe('demonstration packs', () => {
  it.each(catalogue.packs.map((listed) => [listed.part.id, listed] as const))(
    '%s follows the pack laws',
    (_id, listed) => {
      const { part: pack, labelRate } = listed
      const charge = pack.capacity / 3600
      const k = pack.cellResistance * charge
      expect(k).toBeGreaterThan(0.0057)
      expect(k).toBeLessThan(0.021)
      const believable = pack.continuousCurrent / charge
      expect(believable / (0.28 / k)).toBeGreaterThan(0.97)
      expect(believable / (0.28 / k)).toBeLessThan(1.03)
      expect(labelRate / believable).toBeGreaterThan(1.7)
      expect(labelRate / believable).toBeLessThan(3.7)
      expect(pack.currentLimit).toBeLessThanOrEqual(1.5 * pack.continuousCurrent + 1)
      const density = pack.mass / (pack.length * pack.width * pack.height)
      expect(density).toBeGreaterThan(1700)
      expect(density).toBeLessThan(2200)
    },
  )

  it('boast most where they are poorest', () => {
    const strongestLabel = (low: number, high: number) =>
      Math.max(
        ...catalogue.packs
          .map(({ part, labelRate }) => ({ k: (part.cellResistance * part.capacity) / 3600, part, labelRate }))
          .filter(({ k }) => k > low && k < high)
          .map(({ part, labelRate }) => labelRate / (part.continuousCurrent / (part.capacity / 3600))),
      )
    expect(strongestLabel(0.014, 0.02)).toBeGreaterThan(strongestLabel(0.006, 0.008))
  })

  it('offer a pack that is worse and dearer than another of its kind', () => {
    const badBuy = catalogue.packs.some((dear) =>
      catalogue.packs.some(
        (cheap) =>
          cheap.part.cells === dear.part.cells &&
          cheap.part.capacity >= dear.part.capacity &&
          cheap.part.cellResistance < dear.part.cellResistance &&
          cheap.price < dear.price,
      ),
    )
    expect(badBuy).toBe(true)
  })
})

describe('demonstration airframes', () => {
  it('several take more than one fan size', () => {
    const several = catalogue.airframes.filter(({ part }) => {
      const sizes = catalogue.fans
        .map((fan) => fan.part.tipDiameter)
        .filter((size) => size >= part.fanDiameterMin && size <= part.fanDiameterMax)
      return new Set(sizes).size > 1
    })
    expect(several.length).toBeGreaterThanOrEqual(3)
  })

  it('all leave mass for propulsion and packs, and balance with them', () => {
    for (const { part } of catalogue.airframes) {
      expect(part.takeOffMassLimit, part.id).toBeGreaterThan(1.5 * part.emptyMass)
      expect(part.packStationMin, part.id).toBeLessThan(part.centreOfGravity)
      expect(part.fanStation, part.id).toBeGreaterThan(part.centreOfGravity)
    }
  })

  it('the composite sport jet is the one of its class', () => {
    const jet = catalogue.airframes.find(({ part }) => part.id === 'airframe-vintra-90')!
    expect(jet.part.dragArea).toBe(0.0052)
    expect(jet.part.span).toBe(1.1)
    const fan = catalogue.fans.find(({ part }) => part.id === 'fan-merle-90-9')!.part
    const exit = (ratio: number) => Math.sqrt(ratio * (fan.tipDiameter ** 2 - fan.hubDiameter ** 2))
    expect(exit(0.78)).toBeGreaterThan(jet.part.exitDiameterMin)
    expect(exit(0.95)).toBeLessThan(jet.part.exitDiameterMax)
  })
})

describe('demonstration sets', () => {
  it('are mostly, but not always, cheaper than the parts, and weigh a little more', () => {
    const savings = catalogue.sets.map((set) => {
      const fan = catalogue.fans.find(({ part }) => part.id === set.fanId)!
      const motor = catalogue.motors.find(({ part }) => part.id === set.motorId)!
      expect(set.mass).toBeGreaterThan(fan.part.mass + motor.part.mass)
      expect(set.mass).toBeLessThan(fan.part.mass + motor.part.mass + 0.02)
      return fan.price + motor.price - set.price
    })
    expect(savings.filter((saving) => saving > 0).length).toBeGreaterThan(savings.length / 2)
    expect(savings.some((saving) => saving < 0)).toBe(true)
  })
})
