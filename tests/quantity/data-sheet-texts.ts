/**
 * Texts as data sheets write them, with what they mean, worked out by hand from the definitions of the units. A row is the text, an arrow and
 * the value in coherent SI, with both limits where there is a spread; or `✗` and the candidates of the error, or a part of its words.
 */
export const dataSheetTexts = `
# resistors and codes
4.7 kΩ → 4700
4.7kΩ → 4700
4.7 kOhm → 4700
4.7 k ohm ✗ is not one unit
4k7 → 4700
4K7 → 4700
R47 → 0.47
0R1 → 0.1
4R7 → 4.7
1M → 1e6
2M2 → 2.2e6
100R → 100
100 R ✗ Ω
10K ✗ 10 K | 10 kΩ
10k → 10000
47k ±5 % → 47000 44650 49350
4k7 ±1% → 4700 4653 4747
4k7 ±10 ✗ 10 kΩ | 10 Ω
330 Ω ±1 % → 330 326.7 333.3
330 Ω ±1 ✗ 1 % | 1 Ω
330 Ω +/-1 ✗ 1 % | 1 Ω
330 Ω +-2 % → 330 323.4 336.6
(330 ± 10) Ω → 330 320 340
330 ± 10 Ω → 330 320 340
330 Ω ±10 Ω → 330 320 340
330 Ω σ 2 Ω → 330 324 336
330 Ω σ 2 ✗ 2 % | 2 Ω
330 Ω ±10 Ω (3σ) → 330 320 340
330 Ω ±10 (3σ) ✗ 10 % | 10 Ω
330 Ω ±6 Ω (2σ) → 330 324 336
330 Ω ±10 Ω (triangular) → 330 320 340
10 mΩ ±1 % → 0.01 0.0099 0.0101
0.5 mΩ → 0.0005
1 MΩ → 1e6
22 MΩ ±10 % → 22e6 19.8e6 24.2e6
10 GΩ → 1e10
10 000 Ω → 10000
1 000 000 Ω ±5 % → 1e6 950000 1050000
10 00 Ω ✗ 1000
1 0000 Ω ✗ 10000
01 000 Ω ✗ two numbers
100 50 Ω ✗ 10050
10,000 Ω ✗ 10.000 | 10000
4,7 kΩ ✗ 4.7 | 47
10'000 Ω ✗ cannot stand here
10_000 Ω ✗ cannot stand here
# capacitors and inductors
100 nF → 1e-7
100nF → 1e-7
0.1 µF → 1e-7
0.1 uF → 1e-7
0.1 μF → 1e-7
100n → 1e-7
2n2 → 2.2e-9
2n2 F → 2.2e-9
4µ7 → 4.7e-6
4u7 → 4.7e-6
10p → 1e-11
15 pF ±0.5 pF → 1.5e-11 1.45e-11 1.55e-11
15 pF ±0.5 ✗ 0.5 % | 0.5 pF
10 µF ±20 % → 1e-5 8e-6 1.2e-5
10 µF ±20 ✗ 20 % | 20 µF
100 µF +80/-20 % → 1e-4 8e-5 1.8e-4
100 µF -20/+80 % → 1e-4 8e-5 1.8e-4
100 µF +80 %/-20 % → 1e-4 8e-5 1.8e-4
100 µF +80/-20 ✗ +80 % | +80 µF
100 µF -20/+80 ✗ -20 % | -20 µF
100 µF +80 % ✗ the other limit is missing
10 µH ±30 % → 1e-5 7e-6 1.3e-5
4.7 mH → 0.0047
0.000 001 F → 1e-6
0.000 000 1 F ✗ two numbers
# voltage, current, power
3.3 V → 3.3
3V3 → 3.3
3.3V±5% → 3.3 3.135 3.465
3.3 V ± 5 % → 3.3 3.135 3.465
3.3 V ±5 ✗ 5 % | 5 V
3.3 V ±0.1 V → 3.3 3.2 3.4
3.3 V +0.2 V/-0.1 V → 3.3 3.2 3.5
3.3 V +0.2/-0.1 V → 3.3 3.2 3.5
3.3 V +0.2/-0.1 ✗ +0.2 % | +0.2 V
3.3 V +0.2 V/-100 mV → 3.3 3.2 3.5
3.3 +0.2/-0.1 V → 3.3 3.2 3.5
3.3 V +0.2/+0.1 V ✗ one limit has +
2.7 V to 5.5 V → 4.1 2.7 5.5
2.7 to 5.5 V → 4.1 2.7 5.5
2.7–5.5 V → 4.1 2.7 5.5
2.7 – 5.5 V → 4.1 2.7 5.5
2.7…5.5 V → 4.1 2.7 5.5
2.7...5.5 V → 4.1 2.7 5.5
2.7..5.5 V → 4.1 2.7 5.5
(2.7 to 5.5) V → 4.1 2.7 5.5
2.7 V – 5.5 V → 4.1 2.7 5.5
3.7 V in 3.0 V to 4.2 V → 3.7 3 4.2
3.7 V in 3.0 to 4.2 V → 3.7 3 4.2
3.7 V (3.0 to 4.2 V) → 3.7 3 4.2
3.7 V (3.0 V to 4.2 V, triangular) → 3.7 3 4.2
3.7 (3.0 to 4.2) V → 3.7 3 4.2
min 3.0, typ 3.7, max 4.2 V → 3.7 3 4.2
min 3.0 V typ 3.7 V max 4.2 V → 3.7 3 4.2
max 4.2 V, min 3.0 V, typ 3.7 V → 3.7 3 4.2
min 3.0 V, max 4.2 V ✗ typ is missing
5.5 to 2.7 V ✗ wrong way round
5 V to 5 V ✗ equal
5 to 5 V ✗ equal
5–5 mV ✗ equal, 5; write the value alone
min 3, typ 3, max 3 V ✗ equal
3 V (3 to 3 V) ✗ equal
3 V in 3 V to 3 V ✗ equal
14 mA ±10 ✗ 10 % | 10 mA
14 mA ± 10 ✗ 10 % | 10 mA
14 mA ±10 % → 0.014 0.0126 0.0154
14 mA ±10 mA → 0.014 0.004 0.024
14 mA ±1e1 ✗ 1e1 % | 1e1 mA
14 ±10 mA → 0.014 0.004 0.024
100 nA ×/÷ 3 → 1e-7 3.3333333333333334e-8 3e-7
10 nA ×/÷ 3 (2σ) → 1e-8 3.3333333333333333e-9 3e-8
-12 V ±5 % → -12 -12.6 -11.4
−12 V → -12
- 12 V → -12
+5 V → 5
1.5e-3 A → 0.0015
1.5E-3 A → 0.0015
1.5×10⁻³ A → 0.0015
1.5 × 10^-3 A → 0.0015
1.5·10^(-3) A → 0.0015
1.5x10^-3 A → 0.0015
1.5 10^-3 A ✗ two numbers
.5 W → 0.5
5. W ✗ cannot read
250 mW → 0.25
0.25 W ±10 mW → 0.25 0.24 0.26
12 VA → 12
12 V A → 12
5 kW h → 18e6
5 kWh → 18e6
20 V s → 20
20 m V ✗ m·V | mV
20 m A ✗ m·A | mA
20 µ A ✗ is not one unit
20 k V ✗ is not one unit
5 VV ✗ unknown unit
5 V V ✗ V·V
5 V 3 A ✗ does not belong
5 V max ✗ does not belong
5 Vdc ✗ unknown unit
# charge and energy
450 mAh → 1620
450 mA h → 1620
450 mA·h → 1620
450 mAh σ 6 mAh → 1620 1555.2 1684.8
450 mAh ±5 % → 1620 1539 1701
2.5 A h → 9000
3 A s → 3
3.7 W h → 13320
10 A min ✗ A·min
10 µC → 1e-5
# frequency and time
20 Hz to 20 kHz → 10010 20 20000
20–20 kHz ✗ 20 Hz to 20 kHz
20 to 20 kHz ✗ 20 Hz to 20 kHz
20…20 kHz ✗ 20 Hz to 20 kHz
20..20 kHz ✗ 20 Hz to 20 kHz
(20 to 20) kHz ✗ equal
20 – 20 kHz ✗ 20 Hz to 20 kHz
1e3 to 1e3 kHz ✗ 1e3 Hz to 1e3 kHz
30 to 20 kHz ✗ 30 Hz to 20 kHz
100 to 1 MHz ✗ 100 Hz to 1 MHz
100 to 1 MΩ ✗ 100 Ω to 1 MΩ
500 to 2 A ✗ wrong way round
10 to 20 kHz → 15000 10000 20000
10 kHz to 0.2 MHz → 105000 10000 200000
50 Hz ±0.5 Hz → 50 49.5 50.5
50 Hz ±1 % → 50 49.5 50.5
50 Hz ±1 ✗ 1 % | 1 Hz
32.768 kHz ±20 ppm → 32768 32767.34464 32768.65536
32 768 Hz → 32768
32 768 Hz ±20 ppm → 32768 32767.34464 32768.65536
12 MHz ±50 ppm → 12e6 11999400 12000600
12 MHz ±50 ✗ 50 % | 50 MHz
10 ms → 0.01
10 m s ✗ m·s | ms
250 µs ±10 % → 0.00025 0.000225 0.000275
5 min → 300
2 h → 7200
1 d → 86400
100 1/s → 100
1 000 1/s → 1000
2 kHz ± 1 kHz → 2000 1000 3000
# temperature
25 °C → 298.15
25°C → 298.15
25 ℃ → 298.15
25 degC → 298.15
-40 °C → 233.15
−40 °C to 85 °C → 295.65 233.15 358.15
-40 to +85 °C → 295.65 233.15 358.15
-40…85 °C → 295.65 233.15 358.15
25 °C ±5 °C → 298.15 293.15 303.15
25 °C ±5 K → 298.15 293.15 303.15
25 °C ±5 → 298.15 293.15 303.15
25 ±5 °C → 298.15 293.15 303.15
(25 ± 5) °C → 298.15 293.15 303.15
25 °C ±2 % ✗ no meaning
-273.15 °C → 0
-273.16 °C ✗ absolute zero
-300 °C ✗ absolute zero
-300 to 20 °C ✗ absolute zero
20 °C in -280 °C to 40 °C ✗ absolute zero
20 °C (-280 to 40 °C) ✗ absolute zero
-270 °C ±5 K ✗ absolute zero
-270 °C ±5 K (3σ) ✗ absolute zero
-270 °C σ 2 K ✗ absolute zero
one of -280 °C, 20 °C ✗ absolute zero
min -280, typ 20, max 40 °C ✗ absolute zero
-459.67 °F → 0
-460 °F ✗ absolute zero
77 °F → 298.15
300 K → 300
-5 K → -5
5 Δ°C → 5
-300 Δ°C → -300
10 K ±1 K → 10 9 11
# lengths, wires
1.6 mm → 0.0016
1.6 mm ±0.1 mm → 0.0016 0.0015 0.0017
1.6 mm ±10 % → 0.0016 0.00144 0.00176
1.6 mm ±0.1 ✗ 0.1 % | 0.1 mm
1.6 ±0.1 mm → 0.0016 0.0015 0.0017
12 mm +0.1/-0.2 mm → 0.012 0.0118 0.0121
35 µm → 35e-6
1 oz in ✗ oz·in
2 in → 0.0508
0.1 in ±5 mil → 0.00254 0.002413 0.002667
100 mil → 0.00254
5 ft → 1.524
1 1/2 in ✗ two numbers
20 AWG → 0.000811818
0 AWG → 0.00825146
00 AWG → 0.00926583
000 AWG → 0.0104049
0000 AWG → 0.011684
1/0 AWG → 0.00825146
2/0 AWG → 0.00926583
3/0 AWG → 0.0104049
4/0 AWG → 0.011684
4/0AWG → 0.011684
-3 AWG → 0.011684
00000 AWG ✗ from 0000
-4 AWG ✗ from 0000
05 AWG ✗ from 0000
5/0 AWG ✗ unit is missing
20 AWG ±1 % ✗ takes no tolerance
12 mm mm ✗ mm·mm
3 mm² → 3e-6
3 mm2 → 3e-6
3 mm^2 → 3e-6
1 234.567 mm → 1.234567
1 234 mm → 1.234
12 345 678 µm → 12.345678
# mechanics, products by a space
5 N·m → 5
5 Nm → 5
5 N m → 5
5 mN m → 0.005
5 N mm → 0.005
5 N m ±10 % → 5 4.5 5.5
5 kg m² → 5
5 kg·m²/s² → 5
5 kg m² s⁻² → 5
5 kg m/s² → 5
5 m s⁻¹ → 5
5 m/s → 5
5 m s ✗ m·s | ms
5 Pa s → 5
5 mPa s → 0.005
5 J/(kg K) → 5
5 W/(m K) → 5
0.3 W/(m·K) → 0.3
5 W/m K ✗ W/(m·K) | W·K/m
5 W/m/K ✗ W/(m·K)
5 W/m² K ✗ W/(m²·K) | W·K/m²
25 W/(m² K) → 25
5 V/(m s) → 5
6.674 30(15)e-11 m³/(kg s²) → 6.6743e-11 6.67385e-11 6.67475e-11
9.109(28)e-31 kg → 9.109e-31 9.025e-31 9.193e-31
5 lb in ✗ lb·in
5 N in ✗ N·in
5 ppm K ✗ ppm·K
5 % V ✗ %·V
5 °C m ✗ side by side
5 K m → 5
5 m K ✗ m·K | mK
5 G Hz ✗ G·Hz | GHz
5 T m → 5
210 GPa → 2.1e11
50 N/mm² → 5e7
9.81 m/s² → 9.81
9.81 m/s2 → 9.81
2.7 g/cm³ → 2700
5 kg/m3 → 5
1 bar → 100000
# noise, coefficients
4 nV/√Hz → 4e-9
4 nV/sqrt(Hz) → 4e-9
4 nV/Hz^(1/2) → 4e-9
4 nV √s → 4e-9
1 pA/√Hz → 1e-12
50 ppm/°C → 5e-5
50 ppm/K → 5e-5
-2 mV/°C → -0.002
-2 mV/K → -0.002
20 °C/W → 20
20 K/W → 20
5 V/µs → 5e6
0.1 %/V → 0.001
5 mV/mA → 5
# numbers and shares
5 % → 0.05
5% → 0.05
20 ppm → 2e-5
0.85 → 0.85
1e3 → 1000
85 % ±2 % ✗ (85 ± 2) % | (85 ± 1.7) %
5e3 % ±2e-3 % ✗ (5e3 ± 2e-3) % | (5e3 ± 0.1) %
1e2 ±1e-1 % ✗ (1e2 ± 1e-1) % | 1e2 ± 0.1
5 % +1/-2 % ✗ two readings
(85 ± 2) % → 0.85 0.83 0.87
85 % ±2 → 0.85 0.83 0.87
78 % (72 to 82 %) → 0.78 0.72 0.82
±1 % → 0 -0.01 0.01
±0.2 mV → 0 -0.0002 0.0002
0.74 ±0.037 → 0.74 0.703 0.777
10 ±1 → 10 9 11
one of 300 Ω, 330 Ω → 300 300 330
one of 300 Ω (40 %), 330 Ω (60 %) → 300 300 330
450 mcd, one of 350 mcd (20 %), 450 mcd (80 %) → 0.45 0.35 0.45
one of 1e3 Ω, 1e3 Ω ✗ 1e3 stands twice
# information
8 bit → 8
20 byte → 160
20 bytes → 160
1 kB → 8000
2 MB → 16e6
1 KiB → 8192
100 kbit → 100000
1 Mbit/s → 1e6
1 MB/s → 8e6
20 B ✗ byte | dB
20 kb ✗ kbit | kB
20 KB ✗ kB | KiB
20 Mb ✗ Mbit | MB
20 b ✗ bit | byte
# levels
0 dBV → 1
-10 dBV → 0.31622776601683794
0 dBu → 0.7745966692414834
+4 dBu → 1.227653
20 dB → 10
20 dB (power) → 100
3 dBi → 1.9952623149688795
0 dBm → 0.001
14 dBm ±1.5 dB → 0.025118864315095794 0.017782794 0.035481339
14 dB ±1 → 5.011872336272722 4.466835921509632 5.623413251903491
94 dB SPL → 1.0023744672545445
94 dBSPL → 1.0023744672545445
94 dB(SPL) → 1.0023744672545445
40 dBµV/m → 0.0001
40 dBuV/m → 0.0001
-38 dBV/Pa → 0.012589254117941673
102 dB/mW → 6339.572769844
20 dBm to 20 dBm ✗ equal
0 to 20 dB → 3.1622776601683795 1 10
20 dB m ✗ dBm
# light
450 mcd → 0.45
450 mcd ±10 % → 0.45 0.405 0.495
20 lm → 20
500 lx → 500
100 lm/W → 100
`;
