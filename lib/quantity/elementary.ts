/**
 * Elementary functions from sums, products, quotients and square roots alone, which every engine rounds alike (IEEE 754).
 * The engines' own (`Math.exp`, `Math.sin` and all their kin but `Math.sqrt`) differ from one another in the last bit,
 * and what a page computes must equal what a run has computed. Errors as measured are below two units in the last place,
 * angles of any size included (see `quarter-turns.ts`).
 *
 * Methods and coefficients of fdlibm (e_exp.c, s_expm1.c, e_log.c, e_sinh.c, e_cosh.c, s_tanh.c, e_rem_pio2.c, k_sin.c,
 * k_cos.c, k_tan.c, e_asin.c, e_acos.c, s_atan.c, e_atan2.c):
 * Copyright (C) 1993 by Sun Microsystems, Inc. All rights reserved. Developed at SunPro, a Sun Microsystems, Inc.
 * business. Permission to use, copy, modify, and distribute this software is freely granted, provided that this notice
 * is preserved.
 */
export { cos, sin, tan } from "./circular";
export { cosh, exp, expm1, sinh, tanh } from "./exponential";
export { acos, asin, atan, atan2 } from "./inverse-circular";
export { cbrt, ln, log1p, log2, log10 } from "./logarithm";
