package coldward.model.heat;

import static coldward.quantity.Checks.notNegative;
import static coldward.quantity.Checks.positive;

/** Published relations of heat transfer that the cold side is built from; each names its range and source. */
public final class Correlations {

    /** Standard gravity, m/s2 (CGPM 1901). */
    public static final double STANDARD_GRAVITY = 9.80665;

    /** Stefan-Boltzmann constant, W/(m2 K4) (SI brochure 2019, exact to the digits given). */
    public static final double STEFAN_BOLTZMANN = 5.670374419e-8;

    private Correlations() {}

    /**
     * Efficiency of a straight fin with adiabatic tip, {@code tanh(mL)/(mL)} (Incropera et al., Eq. 3.89).
     *
     * @param mL fin parameter times length, at least 0
     * @return share of the heat that an isothermal fin would give, 0 to 1
     */
    public static double straightFinEfficiency(double mL) {
        notNegative("mL", mL, "");
        return mL < 1e-8 ? 1 : Math.tanh(mL) / mL;
    }

    /**
     * Conductance into an infinitely long fin, {@code sqrt(g k A)} (Incropera et al., Table 3.4 case D with {@code g = h
     * P}), W/K.
     *
     * @param conductivityArea {@code k A}, W m/K
     * @param perMetre {@code g}, conductance from the fin's side per metre, W/(m K)
     */
    public static double infiniteFin(double conductivityArea, double perMetre) {
        positive("k A", conductivityArea, "W m/K");
        notNegative("g", perMetre, "W/(m K)");
        return Math.sqrt(conductivityArea * perMetre);
    }

    /**
     * Efficiency of an annular fin of uniform thickness with adiabatic tip at {@code outer} (Incropera et al., Table
     * 3.5): {@code 2 r1/(m(r2^2-r1^2)) (K1(m r1) I1(m r2) - I1(m r1) K1(m r2)) / (I0(m r1) K1(m r2) + K0(m r1) I1(m
     * r2))}, {@code m = sqrt(2h/(k t))}. Pass the corrected radius {@code r2 + t/2} for a convecting tip.
     *
     * @param inner radius of the base, m
     * @param outer radius of the tip, m, above {@code inner}
     * @param thickness m
     * @param conductivity W/(m K)
     * @param h W/(m2 K)
     * @return 0 to 1
     */
    public static double annularFinEfficiency(
            double inner, double outer, double thickness, double conductivity, double h) {
        positive("inner radius", inner, "m");
        positive("thickness", thickness, "m");
        positive("conductivity", conductivity, "W/(m K)");
        notNegative("h", h, "W/(m^2 K)");
        positive("outer minus inner radius", outer - inner, "m");
        double m = Math.sqrt(2 * h / (conductivity * thickness));
        if (m * outer < 1e-4) {
            // below this the efficiency differs from 1 by less than the rounding of the quotient
            return 1;
        }
        double a = m * inner;
        double b = m * outer;
        double i1b = Bessel.i1(b);
        double k1b = Bessel.k1(b);
        double above = Bessel.k1(a) * i1b - Bessel.i1(a) * k1b;
        double below = Bessel.i0(a) * k1b + Bessel.k0(a) * i1b;
        return 2 * inner / (m * (outer * outer - inner * inner)) * above / below;
    }

    /**
     * Mean Nusselt number of simultaneously developing laminar flow between isothermal parallel plates, on the hydraulic
     * diameter (Stephan 1959, in VDI Heat Atlas Gb): {@code 7.55 + 0.024 x^-1.14/(1 + 0.0358 Pr^0.17 x^-0.64)}.
     *
     * @param x dimensionless length {@code L/(Dh Re Pr)}, above 0
     * @param prandtl 0.1 to 1000
     */
    public static double stephanParallelPlates(double x, double prandtl) {
        positive("x", x, "");
        positive("Pr", prandtl, "");
        return 7.55 + 0.024 * Math.pow(x, -1.14) / (1 + 0.0358 * Math.pow(prandtl, 0.17) * Math.pow(x, -0.64));
    }

    /**
     * Mean Nusselt number of a vertical plate in still air, laminar (Churchill and Chu 1975): {@code 0.68 + 0.670
     * Ra^(1/4)/(1 + (0.492/Pr)^(9/16))^(4/9)}, Ra below 1e9.
     */
    public static double churchillChuLaminar(double rayleigh, double prandtl) {
        notNegative("Ra", rayleigh, "");
        positive("Pr", prandtl, "");
        return 0.68 + 0.670 * Math.pow(rayleigh, 0.25) / Math.pow(1 + Math.pow(0.492 / prandtl, 9.0 / 16), 4.0 / 9);
    }

    /**
     * Loss coefficient of a sudden widening, on the velocity before it (Borda-Carnot; White, Fluid Mechanics, Eq.
     * 6.80): {@code (1 - A1/A2)^2}.
     *
     * @param areaRatio area before over area after, 0 to 1
     */
    public static double bordaCarnot(double areaRatio) {
        coldward.quantity.Checks.within("area ratio", areaRatio, 0, 1, "");
        return (1 - areaRatio) * (1 - areaRatio);
    }
}
