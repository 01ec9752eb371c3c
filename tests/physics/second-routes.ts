/** By which test each public model is checked along a second route that shares no code with it; its worked example (data/examples) is no such route. */
export interface SecondRoute {
  /** Test file, below tests. */
  readonly file: string;
  /** Title as it stands in the file. */
  readonly title: string;
  readonly kind: RouteKind;
}

export const routeKinds = [
  "ngspice",
  "closed form",
  "balance",
  "finite differences",
  "brute force",
  "limiting case",
  "published table",
  "published law",
] as const;
export type RouteKind = (typeof routeKinds)[number];

const physics = (file: string, title: string, kind: RouteKind): SecondRoute => ({ file: `physics/${file}.test.ts`, title, kind });

export const secondRoutes: Readonly<Record<string, SecondRoute>> = {
  "audio.capacitiveLoad": physics("audio-loop", "agrees with ngspice on %s: crossover within 0.1 %, phase margin within 0.1°", "ngspice"),
  "audio.classABHeat": physics("audio-output", "agrees with the heat of both devices sampled over a period, at %d V peak", "brute force"),
  "audio.classABHeatCurve": physics(
    "audio-output",
    "over all levels is that of both devices sampled over a period, behind a series resistor too",
    "brute force",
  ),
  "audio.coupledSettling": physics(
    "audio-settling",
    "of %d V to %d V behind high-passes of %d Hz and %d Hz agrees with ngspice within 2 %",
    "ngspice",
  ),
  "audio.crosstalkCurve": physics(
    "audio-level",
    "of a shared return and a capacitance agrees with ngspice within 0.05 dB from 20 Hz to 200 kHz",
    "ngspice",
  ),
  "audio.dampingAt": physics(
    "audio-loop",
    "agree with a current forced into ngspice's closed loop within 0.1 %, at every point of the curve",
    "ngspice",
  ),
  "audio.dampingCurve": physics(
    "audio-loop",
    "agree with a current forced into ngspice's closed loop within 0.1 %, at every point of the curve",
    "ngspice",
  ),
  "audio.greatestHeat": physics(
    "audio-output",
    "rises with level, then falls: 2/π of the rail is the hottest, not full swing",
    "closed form",
  ),
  "audio.highCorner": physics(
    "audio-response",
    "are the corner of one section, and those of two equal ones narrowed by √(√2 − 1)",
    "closed form",
  ),
  "audio.highPassSettling": physics("audio-settling", "of 1 V to 10 mV in a %s of Q = %d agrees with ngspice within 2 %", "ngspice"),
  "audio.loopGainCurve": physics("audio-loop", "gives the loop gain and its phase over a band within 0.01 dB and 0.1°", "ngspice"),
  "audio.lowCorner": physics(
    "audio-response",
    "are the corner of one section, and those of two equal ones narrowed by √(√2 − 1)",
    "closed form",
  ),
  "audio.lowPassSettling": physics("audio-settling", "of 1 V to 10 mV in a %s of Q = %d agrees with ngspice within 2 %", "ngspice"),
  "audio.noiseDensity": physics("audio-noise", "together are the density that a formula gives at the input", "closed form"),
  "audio.noiseDensityCurve": physics("audio-noise", "have the density of ngspice within 0.1 % from 20 Hz to 20 kHz", "ngspice"),
  "audio.outputImpedance": physics("audio-loop", "agrees with ngspice's closed loop within 0.1 %", "ngspice"),
  "audio.outputLimits": physics(
    "audio-output",
    "names current for 8 Ω, heat where that is tight, voltage for 38 Ω and 600 Ω",
    "limiting case",
  ),
  "audio.outputNoise": physics("audio-noise", "of a %s stage agree with ngspice within 0.1 %, unweighted and A-weighted", "ngspice"),
  "audio.outputNoiseA": physics("audio-noise", "of a %s stage agree with ngspice within 0.1 %, unweighted and A-weighted", "ngspice"),
  "audio.outputNoiseC": physics("audio-noise", "of a %s stage agree with ngspice within 0.1 %, C-weighted", "ngspice"),
  "audio.phaseDeviation": physics("audio-linearity", "of %s is the least over all delays, and over all lines", "brute force"),
  "audio.phaseDeviationCurve": physics(
    "audio-linearity",
    "from a stated delay is the sum of arctangents of its sections, and 2π·f·τ",
    "closed form",
  ),
  "audio.response": physics(
    "audio-response",
    "agrees with ngspice on a chain of all sections within 0.01 dB and 0.01°, from 1 Hz to 1 MHz",
    "ngspice",
  ),
  "audio.responseCurve": physics(
    "audio-response",
    "over a band agrees with ngspice within 0.05 dB and 0.05°: gain, phase, and the delay by what the phase loses",
    "ngspice",
  ),
  "audio.weightedBandwidth": physics(
    "audio-noise",
    "leaves a band of 12.47 kHz of white noise under A, by a sum over every hertz",
    "brute force",
  ),
  "audio.weighting": physics(
    "audio-noise",
    "gives the values of the standard's table of %s within its rounding, at the exact frequencies",
    "published table",
  ),
  "audio.weightingCurve": physics(
    "audio-noise",
    "over a band has the rows of the standard's table of %s at every fifth point",
    "published table",
  ),
  "battery.capacityAtTemperature": physics(
    "battery-tables",
    "has the resistance and the capacity of its rows within 0.01 %, from −20 °C to 45 °C",
    "ngspice",
  ),
  "battery.constantPowerLoad": physics("battery-discharge", "gives the load its power, at the root with the lower current", "balance"),
  "battery.converterInput": physics(
    "battery-models",
    "converterInput takes in its load over the efficiency, scaled for the unit, and refuses more than 100 %",
    "balance",
  ),
  "battery.linearChargeTime": physics("battery-charge", "agrees with brute-force steps through time %s", "brute force"),
  "battery.meanVoltage": physics("battery-models", "meanVoltage of a straight line is its middle", "closed form"),
  "battery.openCircuitVoltage": physics(
    "battery-tables",
    "has the open-circuit voltage of battery.openCircuitVoltage within 0.1 mV while it is emptied",
    "ngspice",
  ),
  "battery.rectifiedMean": physics(
    "battery-signal",
    "agrees with noise cut off at %d times its rms value, summed over its density",
    "brute force",
  ),
  "battery.resistanceAtTemperature": physics(
    "battery-tables",
    "has the resistance and the capacity of its rows within 0.01 %, from −20 °C to 45 °C",
    "ngspice",
  ),
  "battery.runtimeAtCurrent": physics("battery-discharge", "agrees with brute-force steps through time", "brute force"),
  "battery.runtimeAtPower": physics(
    "battery-discharge",
    "agrees with brute-force steps through time in runtime, charge and both energies",
    "brute force",
  ),
  "battery.stateOfCharge": physics(
    "battery-tables",
    "has the state of charge of battery.stateOfCharge within 0.01 % of its capacity",
    "ngspice",
  ),
  "board.leadEmission": physics("board-emission", "finds no smaller margin anywhere in the band", "brute force"),
  "board.leadEmissionCurve": physics(
    "board-emission",
    "lies on or above what a sum of elementary dipoles radiates at each harmonic of a sampled trapezoid, and within 1 dB of the strongest",
    "brute force",
  ),
  "board.microstrip": physics(
    "board-line",
    "tends to a wire over its plane when narrow, and to parallel plates when wide",
    "limiting case",
  ),
  "board.microstripWidth": physics(
    "board-line",
    "is turned round by microstripWidth, and met by the textbook's synthesis within 1 %",
    "closed form",
  ),
  "board.planeCoupling": physics(
    "board-plane",
    "has the same coupling between points away from the contacts within 1 %",
    "finite differences",
  ),
  "board.planeResistance": physics(
    "board-plane",
    "has the same resistance for contacts as large as a grid's node seems, 0.208 of its cell",
    "finite differences",
  ),
  "board.stripline": physics(
    "board-line",
    "without thickness has S. B. Cohn's exact impedance within half a per cent at w = %d·b",
    "closed form",
  ),
  "board.textbookMicrostripWidth": physics(
    "board-line",
    "is turned round by microstripWidth, and met by the textbook's synthesis within 1 %",
    "closed form",
  ),
  "charging.linearCharge": physics(
    "charging-cell",
    "agrees with the closed form of a straight open-circuit voltage behind a resistance",
    "closed form",
  ),
  "charging.linearChargeCurves": physics("charging-cell", "keeps to its limits at every instant", "balance"),
  "charging.switchingCharge": physics("charging-spice", "takes as long, and puts in and loses as much, within 1 % each", "ngspice"),
  "charging.switchingChargeCurves": physics("charging-spice", "%s has the same course of current, voltage, charge and heat", "ngspice"),
  "charging.windowDivider": physics("charging-laws", "designed for two thresholds passes them at the two temperatures", "balance"),
  "charging.windowRatio": physics(
    "charging-laws",
    "has the ratio of R_p and the thermistor in parallel, R_0·e^(B·(1/T − 1/T_0)), over all",
    "closed form",
  ),
  "charging.windowTemperature": physics("charging-laws", "without a resistor across it follows the closed laws", "closed form"),
  "enclosure.clampedPatchDeflection": physics(
    "enclosure-plate",
    "a plate %f × %f with a patch %f × %f agrees with finite differences, edges supported and clamped, within 0.5 %",
    "finite differences",
  ),
  "enclosure.shell": physics("enclosure-shell", "agrees with numerical integration: %s", "brute force"),
  "enclosure.supportedPatchDeflection": physics(
    "enclosure-plate",
    "simply supported %f × %f with a patch %f × %f is Navier's double series",
    "closed form",
  ),
  "esd.bodyDischarge": physics("esd-spice", "gives the same peaks, charge and energy as the library within 2 per cent: %s", "ngspice"),
  "esd.contactDischarge": physics("esd-spice", "gives the same peaks, charge and energy as the library within 2 per cent: %s", "ngspice"),
  "esd.levels": physics(
    "esd-spice",
    "has ngspice's peak of the pin's current at 2, 4, 6 and 8 kV, powered and not, and the margin that it leaves",
    "ngspice",
  ),
  "esd.pulse": physics(
    "esd-waveform",
    "is at each time what IEC 61000-4-2:2008 writes, 5.6: two terms of 16.6 A and 9.3 A at 4 kV, n = 1.8",
    "published law",
  ),
  "esd.pulseCurrent": physics(
    "esd-waveform",
    "is at each time what IEC 61000-4-2:2008 writes, 5.6: two terms of 16.6 A and 9.3 A at 4 kV, n = 1.8",
    "published law",
  ),
  "hearing.allowanceCurve": physics("hearing-laws", "is a straight line in logarithms through 40 h at 80 dBA", "closed form"),
  "hearing.listeningTimes": physics(
    "hearing-laws",
    "at 82 dBA gives 16 h a day but 25 h a week, so that five mornings of six hours are too many",
    "closed form",
  ),
  "lifetime.fadeCurve": physics(
    "lifetime-models",
    "is what is left when the losses of every hour are taken away one after another",
    "brute force",
  ),
  "lifetime.faultyUnits": physics(
    "lifetime-yield",
    "is the sum of its terms in whole numbers, for p = 1/20 and any k of 60",
    "brute force",
  ),
  "lifetime.timeToRetention": physics(
    "lifetime-models",
    "has closed forms: even cycles alone, calendar alone, and both with the square root",
    "closed form",
  ),
  "lifetime.unitsToStart": physics("lifetime-models", "is the least number for which draws reach the probability", "brute force"),
  "light.currentForIntensity": physics(
    "light-models",
    "intensity and currentForIntensity are a law of powers where the table is rows of one: I_v0·(I/I_0)^0.9·e^(α·ΔT)",
    "closed form",
  ),
  "light.forwardOffset": physics(
    "light-models",
    "forwardVoltage is Shockley's, n·V_T·ln(I/I_s + 1) + I·R_s, of fine rows of it, and forwardOffset what a stated one is above that",
    "closed form",
  ),
  "light.forwardVoltage": physics(
    "light-models",
    "forwardVoltage is Shockley's, n·V_T·ln(I/I_s + 1) + I·R_s, of fine rows of it, and forwardOffset what a stated one is above that",
    "closed form",
  ),
  "light.intensity": physics(
    "light-models",
    "intensity and currentForIntensity are a law of powers where the table is rows of one: I_v0·(I/I_0)^0.9·e^(α·ΔT)",
    "closed form",
  ),
  "light.ledEfficacy": physics("luminosity", "agrees with the integral of the same bell given as a fine table", "brute force"),
  "light.matchProbability": physics(
    "light-match",
    "%i with edges 1 : %f and a spread of %f are within 1 : %f as often as draws are",
    "brute force",
  ),
  "light.operatingPoint": physics("diode-table", "solves a linear table in closed form", "closed form"),
  "light.shockleyOperatingPoint": physics("spice", "light.shockleyOperatingPoint against ngspice", "ngspice"),
  "light.spectralEfficacy": physics(
    "luminosity",
    "of a flat spectrum is the area under V(λ), 106.857 nm, over the spectrum's width",
    "closed form",
  ),
  "light.warmIndicator": physics(
    "light-match",
    "balances heat and current: supply, resistor, shifted table and thermal path agree",
    "balance",
  ),
  "rails.bankAntiResonance": physics(
    "rails-network",
    "shows two resonances with an anti-resonance between, where the closed law says",
    "closed form",
  ),
  "rails.bankExtremes": physics(
    "rails-spice",
    "of %s are the highest and lowest of ngspice's within 0.02 dB, and where they are",
    "ngspice",
  ),
  "rails.bankImpedance": physics(
    "rails-spice",
    "of %s has the same impedance within 0.1 dB at more than 50 frequencies from 10 kHz to 1 GHz",
    "ngspice",
  ),
  "rails.bankImpedanceCurve": physics(
    "rails-spice",
    "of %s, read between its points, is ngspice's within 0.05 dB from 10 kHz to 1 GHz",
    "ngspice",
  ),
  "rails.biasFit": physics(
    "rails-network",
    "is fitted to each of them within 5 percentage points by two numbers, which biasShare gives back",
    "published table",
  ),
  "rails.biasedCapacitance": physics(
    "rails-network",
    "is C_n/(1 + (V/V_h)^n) where the rows are of that law, and takes up its charge ∫C dV",
    "closed form",
  ),
  "rails.boostEfficiency": physics(
    "rails-converter",
    "of a %s converter under forced switching are the textbook's closed forms, one by one and as a curve",
    "closed form",
  ),
  "rails.boostLoss": physics(
    "rails-converter",
    "of a %s converter under forced switching are the textbook's closed forms, one by one and as a curve",
    "closed form",
  ),
  "rails.boostOperation": physics("rails-converter", "a %s converter balances its power in both modes, at any efficiency", "balance"),
  "rails.boostRipple": physics(
    "rails-spice",
    "that is boost, with its output capacitor and load, has the same ripple of current and voltage within 2 %",
    "ngspice",
  ),
  "rails.buckEfficiency": physics(
    "rails-converter",
    "of a %s converter under forced switching are the textbook's closed forms, one by one and as a curve",
    "closed form",
  ),
  "rails.buckLoss": physics(
    "rails-converter",
    "of a %s converter under forced switching are the textbook's closed forms, one by one and as a curve",
    "closed form",
  ),
  "rails.buckOperation": physics("rails-converter", "a %s converter balances its power in both modes, at any efficiency", "balance"),
  "rails.buckRipple": physics(
    "rails-converter",
    "of a %s converter agrees with a sum over a finely cut period, discontinuous conduction included",
    "brute force",
  ),
  "rails.filteredRejectionCurve": physics(
    "rails-network",
    "over a band goes through its rows, and a filter adds what it takes away",
    "balance",
  ),
  "rails.invertingEfficiency": physics(
    "rails-converter",
    "of a %s converter under forced switching are the textbook's closed forms, one by one and as a curve",
    "closed form",
  ),
  "rails.invertingLoss": physics(
    "rails-converter",
    "of a %s converter under forced switching are the textbook's closed forms, one by one and as a curve",
    "closed form",
  ),
  "rails.invertingOperation": physics("rails-converter", "a %s converter balances its power in both modes, at any efficiency", "balance"),
  "rails.invertingRipple": physics(
    "rails-converter",
    "of a %s converter agrees with a sum over a finely cut period, discontinuous conduction included",
    "brute force",
  ),
  "rails.postFilter": physics("rails-spice", "has the same transfer and output impedance within 0.1 dB from 1 kHz to 100 MHz", "ngspice"),
  "rails.postFilterCurve": physics("rails-spice", "is ngspice's within 0.05 dB at any frequency, transfer and output impedance", "ngspice"),
  "rails.postFilterPeak": physics("rails-network", "peaks by its quality factor and falls with 40 dB a decade", "closed form"),
  "rails.rejectionCurve": physics("rails-network", "over a band goes through its rows, and a filter adds what it takes away", "balance"),
  "rails.sawtoothResidue": physics(
    "rails-network",
    "of a sawtooth is its rms value without rejection, and nothing where no harmonic falls into the band",
    "closed form",
  ),
  "rails.supplyResidue": physics("rails-network", "is straight in decibels between its rows, less the noise gain", "closed form"),
  "rf.beadFit": physics("rf-bead-fit", "finds the parts that made the table", "closed form"),
  "rf.capacitorImpedance": physics(
    "rf-spice",
    "that is a capacitor of %s has the same impedance within 0.1 % of its size, through its resonance",
    "ngspice",
  ),
  "rf.chokeLoss": physics("rf-two-port", "fully coupled is invisible to the differential mode and shows L in common mode", "limiting case"),
  "rf.coilImpedance": physics(
    "rf-spice",
    "that is %s has the same impedance, resistance and reactance within 0.1 % of its size",
    "ngspice",
  ),
  "rf.filterCorner": physics("rf-two-port", "of a third-order Butterworth filter is √(1 + (f/f_c)⁶)", "closed form"),
  "rf.insertionLoss": physics("rf-spice", "gives the insertion loss of %s within 0.1 dB from 10 kHz to 6 GHz", "ngspice"),
  "rf.insertionLossCurve": physics("rf-spice", "is the same within 0.1 dB at any frequency from 10 kHz to 6 GHz: %s", "ngspice"),
  "rf.leastInsertionLoss": physics("rf-esd-graph", "agrees with the least of the curve of losses over the same band", "brute force"),
  "rf.scatteringParameters": physics(
    "rf-two-port",
    "keep power as S-parameters of a filter: 1 without loss between any ends, less with it",
    "balance",
  ),
  "rf.tableInsertionLoss": physics("rf-bead-fit", "gives the insertion loss of its equivalent circuit at the rows", "closed form"),
  "thermal.boxSurface": physics("thermal-box", "sheds what it is given, part by part", "balance"),
  "thermal.evenCoefficientSurface": physics(
    "thermal-box",
    "without convection is the fourth root of radiation, without radiation Newton's line",
    "limiting case",
  ),
  "thermal.naturalConvection": physics(
    "thermal-box",
    "of a side of %d m is S. W. Churchill and H. H. S. Chu's within six per cent",
    "published law",
  ),
  "thermal.simpleBoxSurface": physics(
    "thermal-box",
    "of %d W without radiation is Holman's laws turned round: ΔT = (P/(k·c))^(4/5)",
    "published law",
  ),
};
