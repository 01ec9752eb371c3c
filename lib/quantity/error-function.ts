/**
 * The complement of the error function: the same bits in every engine, like `elementary.ts`. Methods and coefficients of
 * fdlibm's s_erf.c (its notice stands in `elementary.ts`): rational approximations on five intervals of |x|.
 */
import { upperHalf } from "./double";
import { exp } from "./exponential";

/** Value at 1, rounded to 24 bits. */
const atOne = 0.8450629115104675;

/** 1 − erf x, erf x = (2/√π)·∫ exp(−t²) dt from 0 to x, without cancellation for large x. */
export function erfc(x: number): number {
  const a = Math.abs(x);
  if (a < 0.84375) {
    const y = small(x * x);
    return x < 0.25 ? 1 - (x + x * y) : 0.5 - (x * y + (x - 0.5));
  }
  if (a < 1.25) return x > 0 ? 1 - atOne - aboutOne(a - 1) : 1 + (atOne + aboutOne(a - 1));
  if (Number.isNaN(x)) return x;
  if (x > 0) return x < 28 ? tail(x) : 0;
  return x > -6 ? 2 - tail(a) : 2;
}

/** erf(x)/x − 1 of z = x². */
function small(z: number): number {
  const above =
    0.12837916709551256 + z * (-0.3250421072470015 + z * (-0.02848174957559851 + z * (-0.005770270296489442 + z * -2.3763016656650163e-5)));
  const below =
    1 +
    z *
      (0.39791722395915535 +
        z * (0.0650222499887673 + z * (0.005081306281875766 + z * (0.00013249473800432164 + z * -3.960228278775368e-6))));
  return above / below;
}

/** erf(1 + s) − erf 1. */
function aboutOne(s: number): number {
  const above =
    -0.0023621185607526594 +
    s *
      (0.41485611868374833 +
        s *
          (-0.3722078760357013 +
            s * (0.31834661990116175 + s * (-0.11089469428239668 + s * (0.035478304325618236 + s * -0.002166375594868791)))));
  const below =
    1 +
    s *
      (0.10642088040084423 +
        s *
          (0.540397917702171 +
            s * (0.07182865441419627 + s * (0.12617121980876164 + s * (0.01363708391202905 + s * 0.011984499846799107)))));
  return above / below;
}

/** erfc from 1.25 on: exp(−x²)·…/x, with x² as the exact square of a rounded x and a rest. */
function tail(x: number): number {
  const s = 1 / (x * x);
  const z = upperHalf(x);
  const ratio = x < 1 / 0.35 ? nearTail(s) : farTail(s);
  return (exp(-z * z - 0.5625) * exp((z - x) * (z + x) + ratio)) / x;
}

function nearTail(s: number): number {
  const above =
    -0.009864944034847148 +
    s *
      (-0.6938585727071818 +
        s *
          (-10.558626225323291 +
            s *
              (-62.375332450326006 +
                s * (-162.39666946257347 + s * (-184.60509290671104 + s * (-81.2874355063066 + s * -9.814329344169145))))));
  const below =
    1 +
    s *
      (19.651271667439257 +
        s *
          (137.65775414351904 +
            s *
              (434.56587747522923 +
                s *
                  (645.3872717332679 +
                    s * (429.00814002756783 + s * (108.63500554177944 + s * (6.570249770319282 + s * -0.0604244152148581)))))));
  return above / below;
}

function farTail(s: number): number {
  const above =
    -0.0098649429247001 +
    s *
      (-0.799283237680523 +
        s *
          (-17.757954917754752 +
            s * (-160.63638485582192 + s * (-637.5664433683896 + s * (-1025.0951316110772 + s * -483.5191916086514)))));
  const below =
    1 +
    s *
      (30.33806074348246 +
        s *
          (325.7925129965739 +
            s *
              (1536.729586084437 +
                s * (3199.8582195085955 + s * (2553.0504064331644 + s * (474.52854120695537 + s * -22.44095244658582))))));
  return above / below;
}
