// What every answer rests on and warns of: assumptions of the models and cautions of the sport.

export const ASSUMPTIONS: readonly string[] = [
  'Fan characteristics are straight pressure-rise lines; listed efficiencies hold at a tip speed of 170 m/s in standard air and move from there with Reynolds number and, above Mach 0.55 at the tip, with compressibility.',
  'The inlet lip loss is whole standing still and fades to nothing at 0.4 of the efflux speed.',
  'Limits are judged with a full pack at 40 °C, cold windings and magnets at 50 °C; speed is quoted at the stated charge with windings at 80 °C, magnets at 50 °C and the speed controller at 60 °C.',
  'Every rating is held at its 95 % value: what part tolerances may add is taken off, or the headroom asked for if that is more. Wishes (budget, stall, thrust, roll, flight time, speed) are judged as worked out.',
  'Tolerances of parts, drag, air and structure are assumed unless measured, and taken as independent of each other.',
  'Pack resistance is the catalogue’s or the owner’s at 25 °C, corrected for temperature and, below 30 % of charge, for charge; packs start a flight at 30 °C or warmer. Packs at hand lose 0.07 % of charge and gain 0.25 % of resistance a cycle unless measured.',
  'Part throttle costs switching, freewheeling and a ripple loss of 2.5 % of V·I at half throttle in the motor.',
  'Motor lead beyond the best angle raises the speed constant as 1/cos γ; magnets lose 0.12 % of their flux per kelvin.',
  'For the sweep a flight alternates equal full-throttle passes with cruise, both currents taken at the quoted charge; the flight by phases carries charge and temperatures through. Speed changes at once between phases, turns are flown at cruise speed.',
  'A drag area is as measured, stated or built up from the geometry; clean-up work takes off what handbook formulas say of the terms it changes.',
  'Flutter, divergence, control-surface and servo limits follow from estimated stiffness and masses of an airframe nobody has tested; each is held by its design factor or its 95 % value, whichever is stricter.',
  'The packs may be moved from where they balance the airframe as long as the centre of gravity stays within 5 mm of where it is wanted.',
  'A margin is the part of the allowed load left unused; wing bending uses an elliptic lift distribution and a factor of safety of 1.5.',
]

export const CAUTIONS: readonly string[] = [
  'These figures are estimates, not a clearance to fly. Follow your aviation authority, model-flying body and club rules, hold liability insurance, keep line of sight and stay clear of people.',
  'Flutter, divergence and mount figures describe an airframe nobody has tested. Raise speed in steps of 10 % at most; after each flight tug hinges, servos, mounts and joiner and look at the glue lines. At any buzz: throttle off, climb gently, land.',
  'On the bench the model pulls hard enough to break free: anchor it, keep everybody out of the rotor plane and away from behind, wear eye and ear protection, arm last, link out while working.',
  'Lithium packs: charge attended and in balance mode at the right cell count, in a fire-resistant container, never above 4.20 V a cell; never use a swollen, hot or crashed pack. Packs in series must match in type, age and charge. Several cells in series arc and burn: use an anti-spark connector and cover bare ends.',
  'Set the fail-safe to throttle off and range-check with the motor running. A throttle cap is a transmitter setting: lifted, every limit here is void.',
]
