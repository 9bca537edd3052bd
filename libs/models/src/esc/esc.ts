// An electronic speed controller as the models see it: one path resistance, running losses, part-throttle losses,
// limits and two heat stores (board and heat sink).

/** One speed controller. SI units: Ω, A, V, W, s, Hz, rad, K, J/K, W/K. */
export interface Esc {
  readonly id: string
  /** Resistance of the whole conducting path at 25 °C, Ω. */
  readonly resistance: number
  /** Relative rise of the path resistance, 1/K above 25 °C. */
  readonly resistanceTemperatureCoefficient: number
  /** Power drawn whatever the load, W. */
  readonly quiescentPower: number
  /** Share of the bus power lost whatever the throttle. */
  readonly proportionalLoss: number
  /** Rise plus fall time of one switching edge pair, s. */
  readonly switchingTime: number
  readonly switchingFrequency: number
  /** Diode drop while freewheeling at part throttle, V; 0 when freewheeling is synchronous. */
  readonly freewheelDrop: number
  /** Diode drop during the dead times of synchronous freewheeling, averaged over a period, V; 0 with a diode. */
  readonly deadTimeDrop: number
  /** Share of the path resistance that still carries the current while freewheeling: 1 synchronous, ½ with a diode. */
  readonly freewheelResistanceShare: number
  readonly cellsMin: number
  readonly cellsMax: number
  /** Highest current for passes of up to 15 s (the label), A. */
  readonly currentLimit: number
  /** Highest electrical speed, rad/s: shaft speed times pole pairs. */
  readonly electricalSpeedLimit: number
  /** Timing settings on offer, rad, ascending. */
  readonly timings: readonly number[]
  /** Current the built-in receiver supply gives, A; 0 if there is none. */
  readonly receiverSupplyCurrent: number
  /** Pack-side connector, or "open" when the leads come bare and any connector can be soldered on. */
  readonly connector: string
  readonly boardHeatCapacity: number
  readonly sinkHeatCapacity: number
  readonly boardToSinkConductance: number
  readonly sinkToAirConductance: number
  /** Highest board temperature, K. */
  readonly boardTemperatureLimit: number
  readonly mass: number
}
