// What an airframe is made of, as far as flutter, divergence and control forces depend on it: one wing panel, one tail
// panel, and the control surfaces with their servos. Stiffness, offset of the centre of mass and linkage are estimates
// until somebody measures them; the demonstration catalogue invents them.

/** One exposed panel, root to tip on one side. */
export interface LiftingPanel {
  /** Exposed semispan, m. */
  readonly semispan: number
  /** Mean chord, m. */
  readonly chord: number
  /** Tip chord over root chord. */
  readonly taper: number
  /** Thickness over chord. */
  readonly thicknessRatio: number
  /** Torsional stiffness of the mean section, N·m². */
  readonly torsionalStiffness: number
  /** Distance of the centre of mass behind the quarter-chord line, as a share of the chord. */
  readonly massOffset: number
}

/** A wing panel, which can also twist off by itself. */
export interface WingPanel extends LiftingPanel {
  /** Distance of the elastic axis behind the quarter-chord line, as a share of the chord; at or below 0 nothing diverges. */
  readonly elasticOffset: number
  /** Slope of lift over angle of attack for the finite span, 1/rad. */
  readonly liftSlope: number
}

/** A control surface with its linkage and servo. */
export interface ControlSurface {
  readonly name: 'aileron' | 'elevator'
  /** Length along the hinge, m. */
  readonly span: number
  /** Chord behind the hinge, m. */
  readonly chord: number
  /** Moment of inertia about the hinge, kg·m². */
  readonly inertia: number
  /** Stiffness of linkage and servo about the hinge, N·m/rad. */
  readonly linkageStiffness: number
  /** Torque of its servo about the hinge, N·m. */
  readonly servoTorque: number
}

export interface AirframeStructure {
  readonly wing: WingPanel
  readonly tail: LiftingPanel
  readonly controls: readonly ControlSurface[]
}
