/** Names of the preferred-number series of IEC 60063, as cells use them. */
export const E3 = "E3";
export const E6 = "E6";
export const E12 = "E12";
export const E24 = "E24";
export const E48 = "E48";
export const E96 = "E96";
export const E192 = "E192";
