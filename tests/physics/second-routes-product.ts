/** Second routes of the rest of a product: battery, board, charging, enclosure, lifetime, light, heat. */
import { physics, type SecondRoute } from "./second-route";

export const productRoutes: Readonly<Record<string, SecondRoute>> = {
  "battery.capacityAtTemperature": physics(
    "battery/tables",
    "has the resistance and the capacity of its rows within 0.01 %, from −20 °C to 45 °C",
    "ngspice",
  ),
  "battery.constantPowerLoad": physics("battery/discharge", "gives the load its power, at the root with the lower current", "balance"),
  "battery.converterInput": physics(
    "battery/models",
    "converterInput takes in its load over the efficiency, scaled for the unit, and refuses more than 100 %",
    "balance",
  ),
  "battery.linearChargeTime": physics("battery/charge", "agrees with brute-force steps through time %s", "brute force"),
  "battery.meanVoltage": physics("battery/models", "meanVoltage of a straight line is its middle", "closed form"),
  "battery.openCircuitVoltage": physics(
    "battery/tables",
    "has the open-circuit voltage of battery.openCircuitVoltage within 0.1 mV while it is emptied",
    "ngspice",
  ),
  "battery.rectifiedMean": physics(
    "battery/signal",
    "agrees with noise cut off at %d times its rms value, summed over its density",
    "brute force",
  ),
  "battery.resistanceAtTemperature": physics(
    "battery/tables",
    "has the resistance and the capacity of its rows within 0.01 %, from −20 °C to 45 °C",
    "ngspice",
  ),
  "battery.runtimeAtCurrent": physics("battery/discharge", "agrees with brute-force steps through time", "brute force"),
  "battery.runtimeAtPower": physics(
    "battery/discharge",
    "agrees with brute-force steps through time in runtime, charge and both energies",
    "brute force",
  ),
  "battery.stateOfCharge": physics(
    "battery/tables",
    "has the state of charge of battery.stateOfCharge within 0.01 % of its capacity",
    "ngspice",
  ),
  "board.leadEmission": physics("board/emission", "finds no smaller margin anywhere in the band", "brute force"),
  "board.leadEmissionCurve": physics(
    "board/emission",
    "lies on or above what a sum of elementary dipoles radiates at each harmonic of a sampled trapezoid, and within 1 dB of the strongest",
    "brute force",
  ),
  "board.microstrip": physics(
    "board/line",
    "tends to a wire over its plane when narrow, and to parallel plates when wide",
    "limiting case",
  ),
  "board.microstripWidth": physics(
    "board/line",
    "is turned round by microstripWidth, and met by the textbook's synthesis within 1 %",
    "closed form",
  ),
  "board.planeCoupling": physics(
    "board/plane",
    "has the same coupling between points away from the contacts within 1 %",
    "finite differences",
  ),
  "board.planeResistance": physics(
    "board/plane",
    "has the same resistance for contacts as large as a grid's node seems, 0.208 of its cell",
    "finite differences",
  ),
  "board.stripline": physics(
    "board/line",
    "without thickness has S. B. Cohn's exact impedance within half a per cent at w = %d·b",
    "closed form",
  ),
  "board.textbookMicrostripWidth": physics(
    "board/line",
    "is turned round by microstripWidth, and met by the textbook's synthesis within 1 %",
    "closed form",
  ),
  "charging.chargeTime": physics("charging/time", "is the one exponential of a straight table and a lump", "closed form"),
  "charging.linearCharge": physics(
    "charging/cell",
    "agrees with the closed form of a straight open-circuit voltage behind a resistance",
    "closed form",
  ),
  "charging.linearChargeCurves": physics("charging/cell", "keeps to its limits at every instant", "balance"),
  "charging.switchingCharge": physics("charging/spice", "takes as long, and puts in and loses as much, within 1 % each", "ngspice"),
  "charging.switchingChargeCurves": physics("charging/spice", "%s has the same course of current, voltage, charge and heat", "ngspice"),
  "charging.windowDivider": physics("charging/laws", "designed for two thresholds passes them at the two temperatures", "balance"),
  "charging.windowRatio": physics(
    "charging/laws",
    "has the ratio of R_p and the thermistor in parallel, R_0·e^(B·(1/T − 1/T_0)), over all",
    "closed form",
  ),
  "charging.windowTemperature": physics("charging/laws", "without a resistor across it follows the closed laws", "closed form"),
  "enclosure.clampedPatchDeflection": physics(
    "enclosure/plate",
    "a plate %f × %f with a patch %f × %f agrees with finite differences, edges supported and clamped, within 0.5 %",
    "finite differences",
  ),
  "enclosure.shell": physics("enclosure/shell", "agrees with numerical integration: %s", "brute force"),
  "enclosure.supportedPatchDeflection": physics(
    "enclosure/plate",
    "simply supported %f × %f with a patch %f × %f is Navier's double series",
    "closed form",
  ),
  "lifetime.fadeCurve": physics(
    "lifetime/models",
    "is what is left when the losses of every hour are taken away one after another",
    "brute force",
  ),
  "lifetime.faultyUnits": physics(
    "lifetime/yield",
    "is the sum of its terms in whole numbers, for p = 1/20 and any k of 60",
    "brute force",
  ),
  "lifetime.timeToRetention": physics(
    "lifetime/models",
    "has closed forms: even cycles alone, calendar alone, and both with the square root",
    "closed form",
  ),
  "lifetime.unitsToStart": physics("lifetime/models", "is the least number for which draws reach the probability", "brute force"),
  "light.currentForIntensity": physics(
    "light/models",
    "intensity and currentForIntensity are a law of powers where the table is rows of one: I_v0·(I/I_0)^0.9·e^(α·ΔT)",
    "closed form",
  ),
  "light.forwardOffset": physics(
    "light/models",
    "forwardVoltage is Shockley's, n·V_T·ln(I/I_s + 1) + I·R_s, of fine rows of it, and forwardOffset what a stated one is above that",
    "closed form",
  ),
  "light.forwardVoltage": physics(
    "light/models",
    "forwardVoltage is Shockley's, n·V_T·ln(I/I_s + 1) + I·R_s, of fine rows of it, and forwardOffset what a stated one is above that",
    "closed form",
  ),
  "light.intensity": physics(
    "light/models",
    "intensity and currentForIntensity are a law of powers where the table is rows of one: I_v0·(I/I_0)^0.9·e^(α·ΔT)",
    "closed form",
  ),
  "light.ledEfficacy": physics("light/luminosity", "agrees with the integral of the same bell given as a fine table", "brute force"),
  "light.matchProbability": physics(
    "light/match",
    "%i with edges 1 : %f and a spread of %f are within 1 : %f as often as draws are",
    "brute force",
  ),
  "light.operatingPoint": physics("light/diode-table", "solves a linear table in closed form", "closed form"),
  "light.shockleyOperatingPoint": physics("spice", "light.shockleyOperatingPoint against ngspice", "ngspice"),
  "light.spectralEfficacy": physics(
    "light/luminosity",
    "of a flat spectrum is the area under V(λ), 106.857 nm, over the spectrum's width",
    "closed form",
  ),
  "light.warmIndicator": physics(
    "light/match",
    "balances heat and current: supply, resistor, shifted table and thermal path agree",
    "balance",
  ),
  "charging.temperatureLimit": physics("charging/limit", "agrees with ngspice reading the same rows from 0 °C to 60 °C", "ngspice"),
  "enclosure.padTravel": physics("enclosure/drop", "give by Hooke's law, and never more than they are thick", "closed form"),
  "thermal.boxSurface": physics(
    "thermal/box",
    "with edges rounded to a ball convects as S. W. Churchill's ball does, within five per cent",
    "published law",
  ),
  "thermal.evenCoefficientSurface": physics(
    "thermal/box",
    "without convection is the fourth root of radiation, without radiation Newton's line",
    "limiting case",
  ),
  "thermal.naturalConvection": physics(
    "thermal/box",
    "of a side of %d m is S. W. Churchill and H. H. S. Chu's within six per cent",
    "published law",
  ),
  "thermal.twoLumps": physics(
    "thermal/lumps",
    "warm as ngspice's two capacitors and two resistors charge, within 0.1 % of the end",
    "ngspice",
  ),
  "thermal.spreading": physics(
    "thermal/spreading",
    "is the exact series of a round source on a round plate within 13 %, of poor conductors at most a third above",
    "closed form",
  ),
  "thermal.simpleBoxSurface": physics(
    "thermal/box",
    "of %d W without radiation is Holman's laws turned round: ΔT = (P/(k·c))^(4/5)",
    "published law",
  ),
};
