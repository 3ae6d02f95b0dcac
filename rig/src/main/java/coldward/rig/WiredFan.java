package coldward.rig;

import static coldward.quantity.Checks.positive;
import static coldward.quantity.Checks.within;

import coldward.model.build.Reading.Edge;
import coldward.model.build.Reading.PeriodTimer;
import coldward.model.build.Reading.Sampled;
import coldward.model.build.Reading.Tachometer;
import java.util.Arrays;
import java.util.SplittableRandom;

/**
 * A fan with its wires and its counter, played change by change over one report, with something the matter with it; and
 * what a person beside it finds with hand, meter and strobe. Knows no closed form of any counter: pulses of unequal length
 * tremble from turn to turn, the supply switches, motors disturb, looks come early or late. The individual (speed, rail,
 * pulse widths, how speed follows the command) and every disturbance come from the seed.
 */
public final class WiredFan {

    /** The individual differs from the catalogue by this share, standard deviation; likewise its rail. */
    private static final double UNIT_SPREAD = 0.045;

    private static final double RAIL_SPREAD = 0.02;

    private static final double PULSE_SPREAD = 0.08;

    private static final double TREMBLE = 0.006;

    private static final double LATENESS = 0.06;

    private static final double METER_ERROR = 0.01;

    private static final double MISJUDGED = 0.07;

    private final double rated;
    private final double volts;
    private final Tachometer tachometer;
    private final Mishap mishap;
    private final SplittableRandom random;
    private final double free;
    private final double rail;
    private final double high;
    private final double stalls;
    private final double offset;

    /**
     * A fan at its counter.
     *
     * @param rated speed on the catalogue, rpm
     * @param volts rated voltage, V
     * @param tachometer the counter as on the sheet
     * @param mishap what is the matter
     * @param seed of the individual and of all disturbances
     */
    public WiredFan(double rated, double volts, Tachometer tachometer, Mishap mishap, long seed) {
        this.rated = positive("rated speed", rated, "rpm");
        this.volts = positive("rated voltage", volts, "V");
        this.tachometer = tachometer;
        this.mishap = mishap;
        this.random = new SplittableRandom(seed);
        this.rail = 1 + RAIL_SPREAD * random.nextGaussian();
        this.free = rated * Math.clamp(1 + UNIT_SPREAD * random.nextGaussian(), 0.88, 1.12) * rail;
        this.high = Math.clamp(tachometer.duty() * (1 + PULSE_SPREAD * random.nextGaussian()), 0.1, 0.9);
        this.stalls = 0.1 + 0.2 * random.nextDouble();
        this.offset = -0.1 + 0.25 * random.nextDouble();
    }

    /**
     * How a reading is taken.
     *
     * @param command what the fan is asked for, share; 1 unless someone varies it
     * @param looksLonger factor on the time between two looks
     * @param plugged the fan is plugged in
     * @param motorsRun the motors run
     * @param suppliedFully a switched supply is held on
     * @param varied the command was chosen by someone, not left as usual
     */
    public record Taking(
            double command,
            double looksLonger,
            boolean plugged,
            boolean motorsRun,
            boolean suppliedFully,
            boolean varied) {

        /** As always. */
        public static final Taking USUAL = new Taking(1, 1, true, true, false, false);

        public Taking {
            within("command", command, 0, 1, "");
            positive("looks longer", looksLonger, "");
        }

        /** With another command. */
        public Taking commanded(double share) {
            return new Taking(share, looksLonger, plugged, motorsRun, suppliedFully, true);
        }

        /** With another time between looks. */
        public Taking looking(double factor) {
            return new Taking(command, factor, plugged, motorsRun, suppliedFully, varied);
        }

        /** With the fan's plug pulled. */
        public Taking unplugged() {
            return new Taking(command, looksLonger, false, motorsRun, suppliedFully, varied);
        }

        /** With the motors still. */
        public Taking still() {
            return new Taking(command, looksLonger, plugged, false, suppliedFully, varied);
        }

        /** With the supply held on. */
        public Taking held() {
            return new Taking(command, looksLonger, plugged, motorsRun, true, varied);
        }
    }

    /** The number that one report shows, rpm. */
    public double shows(Taking taking) {
        boolean silent = !taking.plugged() || mishap instanceof Mishap.CutSignal || mishap instanceof Mishap.AlarmWire;
        double speed = taking.plugged() ? turns(taking) : 0;
        double[] fan = silent || speed == 0 ? new double[0] : train(speed, pulses());
        double[] supply = taking.suppliedFully() ? new double[0] : supply(taking);
        double[] noise = taking.motorsRun() ? noise() : new double[0];
        double factor = taking.looksLonger();
        boolean twice = mishap instanceof Mishap.TwiceCounted;
        double seconds = tachometer.reportInterval();
        double rate = switch (mishap) {
            case Mishap.LateLooks(double every) -> looked(fan, supply, noise, every * factor, twice) / seconds;
            default ->
                switch (tachometer.counter()) {
                    case Sampled(double every) -> looked(fan, supply, noise, every * factor, twice) / seconds;
                    case Edge edge -> edges(fan, supply, noise, edge, twice) / seconds;
                    case PeriodTimer(double clock) -> timed(fan, supply, noise, clock, twice);
                };
        };
        return rate * 60 / tachometer.pulsesPerTurn();
    }

    /** A frequency meter at the fan's own plug, motors still, in rpm for the pulses per turn that are set. */
    public double meter() {
        double speed = turns(Taking.USUAL);
        if (mishap instanceof Mishap.AlarmWire || speed == 0) {
            return 0;
        }
        double counted = edges(train(speed, pulses()), supply(Taking.USUAL), new double[0], new Edge(0, 0), false);
        return counted / tachometer.reportInterval() * 60 / tachometer.pulsesPerTurn();
    }

    /** The true speed by strobe, rpm. */
    public double strobe() {
        return turns(Taking.USUAL) * (1 + METER_ERROR * random.nextGaussian());
    }

    /** A voltmeter at the fan's plug, V. */
    public double voltmeter() {
        double share = switch (mishap) {
            case Mishap.SaggingSupply(double s) -> s;
            case Mishap.SwitchedSupply s -> rail * s.onShare();
            case Mishap.Standing(boolean powered, boolean held) when !powered -> 0;
            default -> rail;
        };
        return Math.max(0, volts * share * (1 + METER_ERROR * random.nextGaussian()));
    }

    /** What a hand feels behind the fins: none, weak or usual. */
    public String air() {
        double through = mishap instanceof Mishap.CoveredInlet covered ? covered.air() : 1;
        double moved = turns(Taking.USUAL) / rated * through;
        return judged(moved < 0.1 ? 0 : moved < 0.6 ? 1 : 2, "none", "weak", "usual");
    }

    /** How the blades turn by hand: free, stiff or held. */
    public String byHand() {
        int truth = switch (mishap) {
            case Mishap.DryBearing dry -> 1;
            case Mishap.Standing(boolean powered, boolean held) when held -> 2;
            default -> 0;
        };
        return judged(truth, "free", "stiff", "held");
    }

    /** What a meter sees on the third wire while the fan turns, is slowed, is held. */
    public String thirdWire() {
        int truth = turns(Taking.USUAL) == 0
                ? 3
                : switch (mishap) {
                    case Mishap.AlarmWire(boolean lowSpeed) -> lowSpeed ? 2 : 1;
                    default -> 0;
                };
        return judged(truth, "pulses", "changes-when-held", "changes-when-slowed", "nothing");
    }

    private String judged(int truth, String... words) {
        return random.nextDouble() < MISJUDGED ? words[random.nextInt(words.length)] : words[truth];
    }

    private int pulses() {
        return mishap instanceof Mishap.OtherMagnet(int other) ? other : tachometer.pulsesPerTurn();
    }

    private double onShare(Mishap.SwitchedSupply supply, Taking taking) {
        return taking.varied() ? Math.max(0.01, taking.command()) : supply.onShare();
    }

    /** True speed, rpm. */
    private double turns(Taking taking) {
        double follows = switch (mishap) {
            case Mishap.SwitchedSupply s -> follow(taking.suppliedFully() ? 1 : onShare(s, taking));
            default -> follow(taking.command());
        };
        double share = switch (mishap) {
            case Mishap.SaggingSupply(double s) -> follow(s) / rail;
            case Mishap.CoveredInlet covered -> covered.speed();
            case Mishap.DryBearing(double keeps) -> keeps;
            case Mishap.Standing standing -> 0;
            case Mishap.MotorNoise noise when !noise.turns() -> 0;
            default -> 1;
        };
        return free * follows * share;
    }

    /** Speed over the full one for a share of the voltage: straight above a stall. */
    private double follow(double share) {
        return share < stalls ? 0 : Math.max(0, (share - offset) / (1 - offset));
    }

    /** Times of rise, fall, rise ... of the fan's own output, from a rise before the report to its end. */
    private double[] train(double rpm, int perTurn) {
        double period = 60 / (rpm * perTurn);
        double at = -period * random.nextDouble();
        int most = (int) (tachometer.reportInterval() / period * 1.3) + 8;
        double[] changes = new double[2 * most];
        int count = 0;
        double tremble = 1;
        for (int k = 0; count + 1 < changes.length && at < tachometer.reportInterval(); k++) {
            if (k % perTurn == 0) {
                tremble = 1 + TREMBLE * random.nextGaussian();
            }
            changes[count++] = at;
            changes[count++] = at + high * period * tremble;
            at += period * tremble;
        }
        return Arrays.copyOf(changes, count);
    }

    /** Times of on, off, on ... of a switched supply; empty for a steady one. */
    private double[] supply(Taking taking) {
        if (!(mishap instanceof Mishap.SwitchedSupply s)) {
            return new double[0];
        }
        double on = onShare(s, taking);
        if (on >= 1) {
            return new double[0];
        }
        double period = 1 / s.frequency();
        double at = -period * random.nextDouble();
        int cycles = (int) (tachometer.reportInterval() / period) + 2;
        double[] changes = new double[2 * cycles];
        for (int k = 0; k < cycles; k++) {
            changes[2 * k] = at + k * period;
            changes[2 * k + 1] = at + (k + on) * period;
        }
        return changes;
    }

    /** Times at which a disturbance begins and ends; motors rest now and then. */
    private double[] noise() {
        if (!(mishap instanceof Mishap.MotorNoise(double rate, boolean turns))) {
            return new double[0];
        }
        int most = (int) (rate * tachometer.reportInterval() * 1.5) + 8;
        double[] changes = new double[2 * most];
        int count = 0;
        double at = random.nextDouble() / rate;
        while (count + 1 < changes.length && at < tachometer.reportInterval()) {
            double period = (0.9 + 0.2 * random.nextDouble()) / rate;
            changes[count++] = at;
            changes[count++] = at + period * (0.35 + 0.3 * random.nextDouble());
            at += period;
        }
        return Arrays.copyOf(changes, count);
    }

    /** The pin at a time, given how many changes of each source are past. */
    private boolean pin(double[] fan, int fanPast, double[] supply, int supplyPast, int noisePast) {
        boolean pulse = fan.length > 0 && fanPast % 2 == 1;
        boolean on = supply.length == 0 || supplyPast % 2 == 1;
        boolean up = mishap instanceof Mishap.SwitchedSupply s && s.pulledUp();
        boolean level = on ? pulse : up && fan.length > 0;
        return level ^ (noisePast % 2 == 1);
    }

    private double looked(double[] fan, double[] supply, double[] noise, double every, boolean twice) {
        int f = 0;
        int s = 0;
        int n = 0;
        int counted = 0;
        boolean before = true;
        int looks = (int) (tachometer.reportInterval() / every);
        for (int i = 0; i <= looks; i++) {
            double at = every * (i + LATENESS * (random.nextDouble() - 0.5));
            while (f < fan.length && fan[f] <= at) {
                f++;
            }
            while (s < supply.length && supply[s] <= at) {
                s++;
            }
            while (n < noise.length && noise[n] <= at) {
                n++;
            }
            boolean now = pin(fan, f, supply, s, n);
            if (now != before && (now || twice) && i > 0) {
                counted++;
            }
            before = now;
        }
        return counted;
    }

    /** Times at which the pin changes, by turns up and down; the array never leaves the fan. */
    @SuppressWarnings("ArrayRecordComponent")
    private record Changes(double[] at, int count, boolean firstRises) {}

    private Changes changes(double[] fan, double[] supply, double[] noise) {
        double[] all = new double[fan.length + supply.length + noise.length];
        System.arraycopy(fan, 0, all, 0, fan.length);
        System.arraycopy(supply, 0, all, fan.length, supply.length);
        System.arraycopy(noise, 0, all, fan.length + supply.length, noise.length);
        Arrays.sort(all);
        double[] at = new double[all.length];
        int count = 0;
        int f = 0;
        int s = 0;
        int n = 0;
        boolean level = false;
        boolean started = false;
        boolean firstRises = false;
        for (double time : all) {
            while (f < fan.length && fan[f] <= time) {
                f++;
            }
            while (s < supply.length && supply[s] <= time) {
                s++;
            }
            while (n < noise.length && noise[n] <= time) {
                n++;
            }
            boolean now = pin(fan, f, supply, s, n);
            boolean inside = time >= 0 && time < tachometer.reportInterval();
            if (inside && started && now != level) {
                if (count == 0) {
                    firstRises = now;
                }
                at[count++] = time;
            }
            if (time < tachometer.reportInterval()) {
                level = now;
                started = true;
            }
        }
        return new Changes(at, count, firstRises);
    }

    private double edges(double[] fan, double[] supply, double[] noise, Edge counter, boolean twice) {
        Changes changes = changes(fan, supply, noise);
        boolean level = !changes.firstRises();
        boolean taken = level;
        double free = 0;
        int counted = 0;
        for (int i = 0; i < changes.count(); i++) {
            level = !level;
            double until = i + 1 < changes.count() ? changes.at()[i + 1] : tachometer.reportInterval();
            if (until - changes.at()[i] >= counter.shortestLevel() && level != taken) {
                taken = level;
                if ((level || twice) && changes.at()[i] >= free) {
                    counted++;
                    free = changes.at()[i] + counter.lockOut();
                }
            }
        }
        return counted;
    }

    private double timed(double[] fan, double[] supply, double[] noise, double clock, boolean twice) {
        Changes changes = changes(fan, supply, noise);
        boolean level = !changes.firstRises();
        double first = -1;
        double last = -1;
        int counted = 0;
        for (int i = 0; i < changes.count(); i++) {
            level = !level;
            if (level || twice) {
                double tick = Math.floor(changes.at()[i] * clock);
                if (counted == 0) {
                    first = tick;
                }
                last = tick;
                counted++;
            }
        }
        return counted < 2 || last <= first ? 0 : (counted - 1) * clock / (last - first);
    }
}
