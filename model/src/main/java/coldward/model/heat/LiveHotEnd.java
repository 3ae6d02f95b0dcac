package coldward.model.heat;

import static coldward.quantity.Checks.notNegative;
import static coldward.quantity.Checks.positive;

import coldward.model.build.HotEnd;
import coldward.quantity.InputError;
import java.util.Arrays;

/**
 * A hot end that goes on in time under whatever drives it: the same equations as {@link Race}, advanced in short fixed
 * steps, with a heater of limited power that holds its target. For simulated printers and for replaying what a real one
 * went through. Not for several threads at once.
 */
public final class LiveHotEnd {

    private static final double LONGEST_STEP = 0.25;
    /** The heater corrects an error of the block's temperature over about this time, s. */
    private static final double CONTROL_TIME = 2.0;

    private final HotEnd hotEnd;
    private final Network network;
    private final HeatSystem system;
    private final Stepper stepper;
    private final Profile profile;
    private double[] state;
    private double[] next;
    private double heaterPower;

    /**
     * What drives it.
     *
     * @param fanShare fan speed as a share of rated speed, at least 0
     * @param heaterTarget K; 0 or below: off
     * @param feed m3/s that the machine asks for; nothing moves while the block is too cold to feed
     * @param blown part-cooling air on the block
     */
    public record Drive(double fanShare, double heaterTarget, double feed, boolean blown) {
        public Drive {
            notNegative("fan share", fanShare, "");
            notNegative("feed", feed, "m^3/s");
        }
    }

    private LiveHotEnd(HotEnd hotEnd, Factors factors) {
        this.hotEnd = hotEnd;
        this.network = new Network(hotEnd, factors, 1);
        this.system = new HeatSystem(network);
        this.stepper = new Stepper(system);
        this.profile = new Profile(network);
        this.state = new double[3 * network.n + 1];
        this.next = new double[state.length];
    }

    /** Everything at the temperature of the air. */
    public static LiveHotEnd cold(HotEnd hotEnd) {
        LiveHotEnd live = new LiveHotEnd(hotEnd, Factors.NONE);
        Arrays.fill(live.state, live.network.air);
        return live;
    }

    /** Hot and steady in a regime, the fan at rated speed. */
    public static LiveHotEnd settled(HotEnd hotEnd, Regime regime) {
        return settled(hotEnd, regime, Factors.NONE);
    }

    /** The same with what the sheet leaves uncertain as one draw has it. */
    public static LiveHotEnd settled(HotEnd hotEnd, Regime regime, Factors factors) {
        LiveHotEnd live = new LiveHotEnd(hotEnd, factors);
        live.system.feed(regime == Regime.PRINTING ? hotEnd.feed() : 0);
        live.state = Stepper.steady(live.system, 1);
        live.heaterPower = live.system.blockDemand(live.state, false);
        return live;
    }

    /** As it was when {@link #state()} was taken from a hot end of the same description. */
    public static LiveHotEnd restore(HotEnd hotEnd, double[] state) {
        LiveHotEnd live = new LiveHotEnd(hotEnd, Factors.NONE);
        if (state.length != live.state.length) {
            throw new InputError(
                    "state",
                    "the recorded state has %d values but this hot end has %d: it belongs to another build"
                            .formatted(state.length, live.state.length));
        }
        live.state = state.clone();
        return live;
    }

    /** Goes on for a time, s, above 0. */
    public void advance(double seconds, Drive drive) {
        positive("seconds", seconds, "s");
        int steps = (int) Math.ceil(seconds / LONGEST_STEP - 1e-9);
        double dt = seconds / steps;
        int block = state.length - 1;
        for (int i = 0; i < steps; i++) {
            boolean feeds = drive.feed() > 0 && state[block] >= network.feedsAbove;
            system.feed(feeds ? drive.feed() : 0);
            double power = 0;
            if (drive.heaterTarget() > 0) {
                double wanted = system.blockDemand(state, drive.blown())
                        + network.blockCapacity * (drive.heaterTarget() - state[block]) / CONTROL_TIME;
                power = Math.clamp(wanted, 0, hotEnd.hotSide().heaterPower());
            }
            heaterPower = power;
            stepper.step(state, next, dt, drive.fanShare(), drive.fanShare(), power, true, drive.blown());
            double[] swap = state;
            state = next;
            next = swap;
        }
    }

    /** Block, K. */
    public double blockKelvin() {
        return state[state.length - 1];
    }

    /** Inner wall where the cold side begins, K. */
    public double throatKelvin() {
        return profile.throat(state);
    }

    /** Mean of the sink, K. */
    public double sinkKelvin() {
        return system.sinkMean(state);
    }

    /** Filament where the cold side begins, K. */
    public double filamentAtThroatKelvin() {
        return profile.filamentAtThroat(state);
    }

    /** Softened depth, m. */
    public double softenedDepth() {
        return profile.softenedDepth(state);
    }

    /** Heater power of the last step, W. */
    public double heaterPower() {
        return heaterPower;
    }

    /** The whole physical state, K; an own copy. */
    public double[] state() {
        return state.clone();
    }
}
