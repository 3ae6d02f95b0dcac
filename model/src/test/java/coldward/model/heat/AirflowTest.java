package coldward.model.heat;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import coldward.model.RandomBuilds;
import coldward.model.build.Fan;
import coldward.model.build.HotEnd;
import coldward.model.build.Sink;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

/** Where the fan's curve meets what resists, and what the air then carries away. */
class AirflowTest {

    @Test
    void theMeetingPointLiesOnBothCurves() {
        for (int number = 0; number < 200; number++) {
            HotEnd hotEnd = RandomBuilds.hotEnd(number);
            Airflow airflow = new Airflow(hotEnd);
            double density =
                    new Air(hotEnd.surroundings().air(), hotEnd.surroundings().pressure()).density()
                            / Air.FAN_STANDARD_DENSITY;
            for (double speed : new double[] {0.02, 0.3, 0.5, 1, 1.2}) {
                double flow = airflow.flow(speed);
                double fan = density * pressure(hotEnd.fan().curve().atSpeed(speed), flow);
                assertThat(airflow.resistance(flow))
                        .as("build %s, speed %s", number, speed)
                        .isCloseTo(fan, within(1e-9 * fan));
            }
            assertThat(airflow.flow(0)).isZero();
        }
    }

    /** The fan's pressure at a flow, straight between the points given. */
    private static double pressure(Fan.Curve curve, double flow) {
        List<Fan.Points.Point> points = switch (curve) {
            case Fan.Straight s ->
                List.of(new Fan.Points.Point(0, s.shutoffPressure()), new Fan.Points.Point(s.freeFlow(), 0));
            case Fan.Points p -> p.points();
        };
        int i = 1;
        while (points.get(i).flow() < flow) {
            i++;
        }
        Fan.Points.Point low = points.get(i - 1);
        Fan.Points.Point high = points.get(i);
        double share = (flow - low.flow()) / (high.flow() - low.flow());
        return low.pressure() + share * (high.pressure() - low.pressure());
    }

    /** Where resistance goes with the square of the flow, the fan laws carry over to the machine. */
    @Test
    void halfTheSpeedIsHalfTheFlowAgainstAQuadraticResistance() {
        HotEnd throttled = withDuct(SheetExample.titanium(), 1e13);
        Airflow airflow = new Airflow(throttled);
        assertThat(airflow.flow(0.5) / airflow.flow(1)).isCloseTo(0.5, within(1e-6));
        // friction between fins goes with the flow itself: half the speed is then less than half the flow
        Airflow usual = new Airflow(SheetExample.titanium());
        assertThat(usual.flow(0.5)).isLessThan(0.5 * usual.flow(1));
    }

    @Test
    void theHubIsPartOfACurveMeasuredWithTheDuct() {
        List<Fan.Points.Point> line = List.of(new Fan.Points.Point(0, 35), new Fan.Points.Point(1.7e-3, 0));
        double bare = new Airflow(withCurve(new Fan.Points(line, false))).flow(1);
        double withDuct = new Airflow(withCurve(new Fan.Points(line, true))).flow(1);
        assertThat(bare).isCloseTo(new Airflow(SheetExample.titanium()).flow(1), within(1e-12));
        assertThat(withDuct).isGreaterThan(bare * 1.01);
    }

    @Test
    void saysWhereItsRelationsEnd() {
        assertThat(new Airflow(SheetExample.titanium()).warnings()).isEmpty();
        assertThat(new Airflow(withCurve(new Fan.Straight(20e-3, 5000))).warnings())
                .singleElement()
                .asString()
                .contains("turbulent");
        Sink s = SheetExample.titanium().sink();
        Sink wideGaps = new Sink(
                s.material(), s.length(), 3, 1e-3, s.finDiameter(), s.coreDiameter(), 0.8, 0.8, 0.01, Optional.empty());
        assertThat(new Airflow(withCurve(new Fan.Straight(0.8e-3, 8)).withSink(wideGaps)).warnings())
                .singleElement()
                .asString()
                .contains("barely developed");
    }

    @Test
    void measuredConductancesReplaceTheComputedOnes() {
        Sink s = SheetExample.titanium().sink();
        Sink measured = new Sink(
                s.material(),
                s.length(),
                s.fins(),
                s.finThickness(),
                s.finDiameter(),
                s.coreDiameter(),
                0.8,
                0.8,
                0.01,
                Optional.of(new Sink.Measured(0.4, 0.05)));
        SinkAir air = new SinkAir(SheetExample.titanium().withSink(measured), Factors.NONE);
        assertThat(air.conductance(1, 310)).isCloseTo(0.4, within(1e-12));
        assertThat(air.conductance(0, 310)).isCloseTo(0.05, within(1e-12));
        // (0.05^3 + (0.4^3 - 0.05^3) 0.25^1.5)^(1/3), by hand: 0.125 = 0.25^1.5
        assertThat(air.conductance(0.25, 310)).isCloseTo(Math.cbrt(1.25e-4 + 0.063875 * 0.125), within(1e-12));
    }

    @Test
    void moreAirNeverCoolsLess() {
        for (int number = 0; number < 200; number++) {
            SinkAir air = new SinkAir(RandomBuilds.hotEnd(number), Factors.NONE);
            double before = air.conductance(0, 330);
            for (double speed = 0.05; speed <= 1; speed += 0.05) {
                double now = air.conductance(speed, 330);
                assertThat(now).as("build %s, speed %s", number, speed).isGreaterThanOrEqualTo(before);
                before = now;
            }
            assertThat(air.forced(0)).isZero();
            // air that leaves as warm as the fins carries all that it can
            double stream = 1.3
                    * RandomBuilds.hotEnd(number).fan().throughShare()
                    * air.airflow().flow(1)
                    * 1006;
            assertThat(air.forced(1)).isBetween(0.0, stream);
        }
    }

    @Test
    void stillAirAndRadiationByHand() {
        // a cylinder 24 mm high and 20 mm wide at 60 degC in 25 degC air, with air at 315 K interpolated in Incropera's
        // Table A.4 (nu 17.4e-6, k 27.4e-3, Pr 0.705; from memory), where Nu = 0.68 + 0.515 Ra^(1/4)
        SinkAir air = new SinkAir(SheetExample.titanium(), Factors.NONE);
        double rayleigh = 9.81 / 315.65 * 35 * Math.pow(24e-3, 3) / (17.4e-6 * 17.4e-6 / 0.705);
        double nusselt = 0.68 + 0.515 * Math.pow(rayleigh, 0.25);
        double area = Math.PI * 20e-3 * 24e-3 + Math.PI * 10e-3 * 10e-3;
        assertThat(air.still(333.15))
                .isCloseTo(0.8 * nusselt * 27.4e-3 / 24e-3 * area, within(0.02 * air.still(333.15)));
        double radiation = 0.8 * 5.67e-8 * area * (Math.pow(333.15, 4) - Math.pow(298.15, 4)) / 35;
        assertThat(air.radiation(333.15)).isCloseTo(radiation, within(1e-3 * radiation));
    }

    private static HotEnd withCurve(Fan.Curve curve) {
        HotEnd h = SheetExample.titanium();
        Fan f = h.fan();
        return h.withFan(new Fan(
                f.ratedVoltage(),
                f.ratedSpeed(),
                f.speedTolerance(),
                curve,
                f.tipDiameter(),
                f.hubDiameter(),
                f.throughShare(),
                f.coastDown(),
                f.runsAbove()));
    }

    private static HotEnd withDuct(HotEnd h, double loss) {
        return new HotEnd(
                h.surroundings(),
                h.plastic(),
                h.nozzle(),
                h.feed(),
                h.filament(),
                h.hotSide(),
                h.neck(),
                h.shank(),
                h.sink(),
                h.fan(),
                loss,
                h.softenedDepthLimit());
    }
}
