package coldward.model.heat;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import coldward.quantity.InputError;
import org.junit.jupiter.api.Test;

/** Modified Bessel functions against tables and identities. */
class BesselTest {

    private static final double RELATIVE = 1e-13;

    /**
     * x, e^-x I0, e^-x I1, e^x K0, e^x K1: the columns of Abramowitz and Stegun, Table 9.8, which gives ten digits; from
     * memory, recomputed with mpmath to the digits of a double.
     */
    private static final double[][] TABLE = {
        {1e-06, 0.99999900000075, 4.999995000003125e-07, 13.931456005075459, 1000000.9999932843},
        {0.01, 0.9900745851497075, 0.004950311047118276, 4.768694028544462, 100.97864845824004},
        {0.1, 0.9071009257823011, 0.045298446808809324, 2.6823261022628944, 10.890182683049696},
        {0.5, 0.6450352704491501, 0.1564208031848717, 1.5241093857739094, 2.731009708211786},
        {1, 0.46575960759364043, 0.20791041534970844, 1.144463079806895, 1.6361534862632583},
        {1.9, 0.31824316288914156, 0.21661191117477052, 0.8614506167517558, 1.06747092981457},
        {2, 0.30850832255367105, 0.21526928924893765, 0.8415682150707714, 1.0334768470686886},
        {2.1, 0.29956309452628194, 0.21374767210633228, 0.8230171525316621, 1.0023680527405792},
        {3, 0.2430003541618254, 0.19682671329730084, 0.6977615980438517, 0.8065634801287869},
        {5, 0.18354081260932836, 0.16397226694454237, 0.547807564313519, 0.6002738587883126},
        {8, 0.14343178185685032, 0.13414249329269817, 0.4366230186015861, 0.4631490928704961},
        {10, 0.12783333716342862, 0.12126268138445552, 0.39163193443659866, 0.41076657059578875},
        {20, 0.08978031188482602, 0.08750622218328867, 0.2785448766571822, 0.28542549694072644},
        {50, 0.05656162664745419, 0.0559931238928954, 0.17680715585742934, 0.17856655855881556},
        {100, 0.03994437929909668, 0.039744153025130256, 0.12517562165912657, 0.12579995047957854},
        {400, 0.01995335628193999, 0.019928398958903543, 0.06264615129957811, 0.06272441016827716},
    };

    @Test
    void agreesWithTheTable() {
        for (double[] row : TABLE) {
            double x = row[0];
            close(Bessel.i0(x) * Math.exp(-x), row[1], x);
            close(Bessel.i1(x) * Math.exp(-x), row[2], x);
            close(Bessel.k0(x) * Math.exp(x), row[3], x);
            close(Bessel.k1(x) * Math.exp(x), row[4], x);
        }
    }

    private static void close(double actual, double expected, double x) {
        // the exponential itself is off by half a unit of x's last digit times x
        assertThat(actual).as("x = %s", x).isCloseTo(expected, within(expected * (RELATIVE + 2e-16 * x)));
    }

    /** I0 K1 + I1 K0 = 1/x (Abramowitz and Stegun 9.6.15). */
    @Test
    void keepsTheWronskian() {
        for (double x = 1e-6; x < 500; x *= 1.07) {
            double wronskian = Bessel.i0(x) * Bessel.k1(x) + Bessel.i1(x) * Bessel.k0(x);
            assertThat(wronskian * x).as("x = %s", x).isCloseTo(1, within(2e-13));
        }
    }

    /** I0' = I1 and K0' = -K1 (9.6.27), by central differences; across the change of method at 2, too. */
    @Test
    void areDerivativesOfOneAnother() {
        double h = 1e-4;
        for (double x = 0.1; x < 20; x += 0.0613) {
            double i = (Bessel.i0(x + h) - Bessel.i0(x - h)) / (2 * h);
            double k = (Bessel.k0(x + h) - Bessel.k0(x - h)) / (2 * h);
            assertThat(i).as("x = %s", x).isCloseTo(Bessel.i1(x), within(1e-6 * Bessel.i0(x)));
            assertThat(-k).as("x = %s", x).isCloseTo(Bessel.k1(x), within(2e-6 * Bessel.k1(x)));
        }
    }

    @Test
    void refusesWhatHasNoValue() {
        assertThatThrownBy(() -> Bessel.k0(0)).isInstanceOf(InputError.class);
        assertThatThrownBy(() -> Bessel.k1(-1)).isInstanceOf(InputError.class);
        assertThatThrownBy(() -> Bessel.i0(-1)).isInstanceOf(InputError.class);
        assertThatThrownBy(() -> Bessel.i1(Double.NaN)).isInstanceOf(InputError.class);
    }
}
