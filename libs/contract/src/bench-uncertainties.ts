// How good the readings of a bench are, and how well its motor, air and duct are known. Defaults are those of the models.
import { BENCH_UNCERTAINTIES, type BenchUncertainties } from '@ductwright/models/calibration/bench-data'
import { z } from 'zod'
import { ratio, share } from './quantity.js'

const reading = (most: number, about: string) =>
  share(0.001, most, 'no bench reads better, and a worse one tells nothing', about)
const scale = (about: string) => share(0, 0.2, 'a worse instrument tells nothing', about)
const known = BENCH_UNCERTAINTIES

export const uncertainties = z
  .strictObject({
    thrust: reading(0.3, 'Of one reading of thrust.').prefault(known.thrust),
    rpm: reading(0.3, 'Of one reading of shaft speed.').prefault(known.shaftSpeed),
    current: reading(0.3, 'Of one reading of current.').prefault(known.current),
    voltage: reading(0.3, 'Of one reading of voltage.').prefault(known.voltage),
    thrust_scale: scale('Of the balance, common to all its readings.').prefault(known.thrustScale),
    current_scale: scale('Of the ammeter, common to all its readings.').prefault(known.currentScale),
    voltage_scale: scale('Of the voltmeter, common to all its readings.').prefault(known.voltageScale),
    speed_constant: scale('Of the listed speed constant of the motor.').prefault(known.speedConstant),
    density: scale('Of the air density.').prefault(known.density),
    duct_loss: ratio(0, 1, 'a worse guess is none', 'Of the duct loss, absolute.').prefault(known.ductLoss),
    peak_efficiency_flow_coefficient: ratio(0, 0.5, 'a worse guess is none', 'Of that coefficient, absolute.').prefault(
      known.phiPeak,
    ),
    efficiency_curvature: ratio(0, 1, 'a worse guess is none', 'Of the curvature, absolute.').prefault(known.kappa),
  })
  .transform(
    (fields): BenchUncertainties => ({
      thrust: fields.thrust,
      shaftSpeed: fields.rpm,
      current: fields.current,
      voltage: fields.voltage,
      thrustScale: fields.thrust_scale,
      currentScale: fields.current_scale,
      voltageScale: fields.voltage_scale,
      speedConstant: fields.speed_constant,
      density: fields.density,
      ductLoss: fields.duct_loss,
      phiPeak: fields.peak_efficiency_flow_coefficient,
      kappa: fields.efficiency_curvature,
    }),
  )
  .prefault({})
  .meta({ description: 'Standard uncertainties, relative where not said otherwise.' })
