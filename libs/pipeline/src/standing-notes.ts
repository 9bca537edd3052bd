// What every answer rests on and warns of: assumptions of the models and cautions of the sport.

export const ASSUMPTIONS: readonly string[] = [
  'Fan characteristics are straight pressure-rise lines; blade Reynolds number and tip Mach effects on efficiency are left out.',
  'Limits are judged with a full pack at 40 °C and cold windings; speed is quoted at the stated charge with windings at 80 °C and the speed controller at 60 °C.',
  'Pack resistance is the catalogue’s at 25 °C, corrected for temperature only; packs start a flight at 30 °C or warmer.',
  'Part throttle costs switching, freewheeling and a ripple loss of 2.5 % of V·I at half throttle in the motor.',
  'Motor lead beyond the best angle raises the speed constant as 1/cos γ.',
  'The flight alternates equal full-throttle passes with cruise; both currents are taken at the quoted charge.',
  'The inlet lip loss standing still has gone by the time of flight; height given up before a run turns into speed without loss.',
  'The design speed of an airframe is its catalogue figure and stands for flutter, divergence and hinge moment together; nobody has tested it.',
  'A margin is the part of the design load left unused; wing bending uses an elliptic lift distribution and a factor of safety of 1.5.',
]

export const CAUTIONS: readonly string[] = [
  'These figures are estimates, not a clearance to fly. Follow your aviation authority, model-flying body and club rules, hold liability insurance, keep line of sight and stay clear of people.',
  'Flutter, divergence and mount figures describe an airframe nobody has tested. Raise speed in steps of 10 % at most; after each flight tug hinges, servos, mounts and joiner and look at the glue lines. At any buzz: throttle off, climb gently, land.',
  'On the bench the model pulls hard enough to break free: anchor it, keep everybody out of the rotor plane and away from behind, wear eye and ear protection, arm last, link out while working.',
  'Lithium packs: charge attended and in balance mode at the right cell count, in a fire-resistant container, never above 4.20 V a cell; never use a swollen, hot or crashed pack. Packs in series must match in type, age and charge. Several cells in series arc and burn: use an anti-spark connector and cover bare ends.',
  'Set the fail-safe to throttle off and range-check with the motor running. A throttle cap is a transmitter setting: lifted, every limit here is void.',
]
