/** Constants of nature that the laws of this floor use, in coherent SI. All are exact since the SI of 2019, but for the impedance of free space. */

/** J/K, exact. SI Brochure, 9th edition (2019), 2.2. */
export const boltzmann = 1.380649e-23;
/** C, exact. SI Brochure, 9th edition (2019), 2.2. */
const elementaryCharge = 1.602176634e-19;
/** m/s, exact. SI Brochure, 9th edition (2019), 2.2. */
export const speedOfLight = 299792458;
/** W/(m²·K⁴), from exact constants; digits cut after the tenth. SI Brochure, 9th edition (2019). */
export const stefanBoltzmann = 5.670374419e-8;
/** Ω, measured, 1.6e-10 of it uncertain. CODATA 2022. */
export const freeSpaceImpedance = 376.730313412;

/** Thermal voltage k·T/q, V. T in kelvin, > 0. 25.7 mV at 25 °C. */
export function thermalVoltage(T: number): number {
  return (boltzmann * T) / elementaryCharge;
}
