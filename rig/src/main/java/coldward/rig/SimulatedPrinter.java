package coldward.rig;

import static coldward.quantity.Checks.positive;
import static coldward.quantity.Checks.within;

import coldward.model.build.Action;
import coldward.model.build.Build;
import coldward.model.build.Reading;
import coldward.model.heat.Factors;
import coldward.model.heat.LiveHotEnd;
import coldward.model.heat.Regime;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;

/**
 * A printer that is only computed: hot end by the heat model, fan, tachometer through its counter, heater, job and
 * part-cooling air. It has no clock; whoever owns it says how much time goes by. Same seed and same calls, same numbers.
 * Power-off cuts heater, motors and fans; the board that answers has its own supply. Not for several threads at once.
 */
public final class SimulatedPrinter {

    private static final double NANOS = 1e9;

    /** Steps while a speed changes, so that folding counters see every speed on the way, ns. */
    private static final long FINE_STEP = 50_000_000;

    private static final long COARSE_STEP = 250_000_000;
    private static final long REPORT_WITHOUT_SIGNAL = 1_000_000_000;

    private final String name;
    private final Build build;
    private final LiveHotEnd heat;
    private final SimulatedFan fan;
    private final Optional<Counting> counting;
    private final long reportInterval;
    private final Map<Action, PrinterRecord.Asked> asked = new EnumMap<>(Action.class);

    private long now;
    private long reportEnds;
    private long report;
    private double shownSpeed;
    private double target;
    private boolean feeding;
    private boolean blown;
    private boolean powered = true;
    private Optional<Failure.OfSignal> signalFailure = Optional.empty();
    private OptionalLong fanFailedAt = OptionalLong.empty();
    private OptionalLong signalFailedAt = OptionalLong.empty();
    private double deepest;

    /** How it is when the simulation begins. */
    public enum Start {
        /** Hot, feeding, steady, the fan at its speed. */
        PRINTING,
        /** Hot with a standing filament, steady, the fan at its speed. */
        HOT_IDLE,
        /** At the temperature of the air, nothing running. */
        COLD
    }

    private SimulatedPrinter(String name, Build build, LiveHotEnd heat, SimulatedFan fan) {
        this.name = name;
        this.build = build;
        this.heat = heat;
        this.fan = fan;
        if (build.reading() instanceof Reading.Tachometer tachometer) {
            this.counting = Optional.of(new Counting(tachometer));
            this.reportInterval = Math.round(tachometer.reportInterval() * NANOS);
        } else {
            this.counting = Optional.empty();
            this.reportInterval = REPORT_WITHOUT_SIGNAL;
        }
        this.reportEnds = reportInterval;
    }

    /**
     * A printer as its sheet describes it.
     *
     * @param name in the shop
     * @param build the sheet
     * @param start how it is at rig time 0
     * @param traits what the sheet leaves open about its fan
     * @param seed of the fan's trembling
     */
    public static SimulatedPrinter of(String name, Build build, Start start, Traits traits, long seed) {
        return of(
                name,
                build,
                switch (start) {
                    case PRINTING -> LiveHotEnd.settled(build.hotEnd(), Regime.PRINTING);
                    case HOT_IDLE -> LiveHotEnd.settled(build.hotEnd(), Regime.HOT_IDLE);
                    case COLD -> LiveHotEnd.cold(build.hotEnd());
                },
                start,
                traits,
                seed);
    }

    /**
     * A hot printer that differs from its sheet as one draw of what the sheet leaves uncertain does.
     *
     * @param regime what it is doing at rig time 0
     * @param factors the draw; its air has to leave the plastic firm
     */
    public static SimulatedPrinter of(
            String name, Build build, Regime regime, Factors factors, Traits traits, long seed) {
        return of(
                name,
                build,
                LiveHotEnd.settled(build.hotEnd(), regime, factors),
                regime == Regime.PRINTING ? Start.PRINTING : Start.HOT_IDLE,
                traits,
                seed);
    }

    private static SimulatedPrinter of(
            String name, Build build, LiveHotEnd heat, Start start, Traits traits, long seed) {
        boolean hot = start != Start.COLD;
        SimulatedPrinter printer = new SimulatedPrinter(
                name, build, heat, new SimulatedFan(build.hotEnd().fan(), traits, seed, hot));
        printer.target = hot ? build.hotEnd().nozzle() : 0;
        printer.feeding = start == Start.PRINTING;
        printer.deepest = heat.softenedDepth();
        // the report that ended just now, so that a hot machine does not begin by showing a standing fan
        printer.fan.tremble(0);
        double speed = printer.fan.speed();
        printer.counting.ifPresent(c -> {
            c.turn(printer.reportInterval / NANOS, speed);
            printer.shownSpeed = c.report();
        });
        printer.report = 1;
        printer.fan.tremble(1);
        return printer;
    }

    /**
     * As it was when the record was taken.
     *
     * @param build the same sheet as then
     * @throws coldward.quantity.InputError if the record belongs to another build
     */
    public static SimulatedPrinter restored(Build build, PrinterRecord from, Traits traits, long seed) {
        SimulatedPrinter printer = new SimulatedPrinter(
                from.printer(),
                build,
                LiveHotEnd.restore(
                        build.hotEnd(),
                        from.heat().stream().mapToDouble(Double::doubleValue).toArray()),
                new SimulatedFan(build.hotEnd().fan(), traits, seed, false));
        printer.fan.restore(from.fan());
        printer.counting.ifPresent(c -> c.restore(from.countedPulses(), from.countedSeconds()));
        printer.now = from.at();
        printer.reportEnds =
                from.at() + Math.max(1, printer.reportInterval - Math.round(from.countedSeconds() * NANOS));
        printer.report = from.report();
        printer.shownSpeed = from.shownSpeed();
        printer.target = from.target();
        printer.feeding = from.feeding();
        printer.blown = from.blown();
        printer.powered = from.powered();
        printer.signalFailure = Failure.of(from.signalFailure(), 0, 1)
                .filter(Failure.OfSignal.class::isInstance)
                .map(Failure.OfSignal.class::cast);
        printer.fanFailedAt = from.fanFailedAt().map(OptionalLong::of).orElseGet(OptionalLong::empty);
        printer.signalFailedAt = from.signalFailedAt().map(OptionalLong::of).orElseGet(OptionalLong::empty);
        from.actions().forEach((word, when) -> Action.of(word).ifPresent(action -> printer.asked.put(action, when)));
        printer.deepest = from.deepest();
        return printer;
    }

    /** Its name. */
    public String name() {
        return name;
    }

    /** Its sheet. */
    public Build build() {
        return build;
    }

    /** Lets time go by, s, above 0. */
    public void advance(double seconds) {
        positive("seconds", seconds, "s");
        long end = now + Math.max(1, Math.round(seconds * NANOS));
        while (now < end) {
            long until = Math.min(Math.min(end, reportEnds), now + (fan.changing(turns()) ? FINE_STEP : COARSE_STEP));
            for (PrinterRecord.Asked action : asked.values()) {
                if (action.effective() > now) {
                    until = Math.min(until, action.effective());
                }
            }
            step((until - now) / NANOS);
            now = until;
            takeEffect();
            if (now >= reportEnds) {
                endReport();
            }
        }
    }

    /** The fan's supply is on: thermostatic. */
    private boolean turns() {
        return powered && heat.blockKelvin() > build.hotEnd().fan().runsAbove();
    }

    private void step(double seconds) {
        double share = fan.advance(seconds, turns());
        boolean cut = signalFailure.filter(Failure.CutSignal.class::isInstance).isPresent();
        counting.ifPresent(
                c -> c.turn(seconds, cut ? 0 : share * build.hotEnd().fan().ratedSpeed()));
        heat.advance(
                seconds,
                new LiveHotEnd.Drive(share, target, feeding ? build.hotEnd().feed() : 0, blown));
        deepest = Math.max(deepest, heat.softenedDepth());
    }

    private void endReport() {
        report++;
        reportEnds += reportInterval;
        double counted = counting.map(Counting::report).orElse(0.0);
        if (signalFailure.filter(Failure.StuckReading.class::isInstance).isEmpty()) {
            shownSpeed = counted;
        }
        fan.tremble(report);
    }

    /**
     * Asks for an action. It takes effect after its latency on the sheet; asked again before it is undone, it does
     * nothing more.
     *
     * @return when it was first asked for and when it takes effect
     */
    public PrinterRecord.Asked act(Action action) {
        PrinterRecord.Asked when = asked.computeIfAbsent(
                action,
                a -> new PrinterRecord.Asked(
                        now, now + Math.round(build.response().latencyOf(a) * NANOS)));
        takeEffect();
        return when;
    }

    private void takeEffect() {
        asked.forEach((action, when) -> {
            if (when.effective() <= now) {
                switch (action) {
                    case HOLD -> feeding = false;
                    case HEATER_OFF -> target = 0;
                    case BLOCK_FAN -> blown = powered;
                    case POWER_OFF -> {
                        powered = false;
                        feeding = false;
                        target = 0;
                        blown = false;
                    }
                }
            }
        });
    }

    /**
     * Sets it to work again, or otherwise to work: undoes every action.
     *
     * @param nozzle target, K; 0 is off
     * @param feeds a job runs; it feeds once the block is hot enough
     */
    public void work(double nozzle, boolean feeds) {
        if (nozzle != 0) {
            within("nozzle target", nozzle - 273.15, 0, 600, "degC");
        }
        asked.clear();
        powered = true;
        blown = false;
        target = nozzle;
        feeding = feeds;
    }

    /** Breaks something now. A second failure of the fan, or of the signal, takes the place of the first. */
    public void fail(Failure failure) {
        switch (failure) {
            case Failure.OfFan ofFan -> {
                fan.fail(ofFan);
                fanFailedAt = OptionalLong.of(now);
                deepest = heat.softenedDepth();
            }
            case Failure.OfSignal ofSignal -> {
                signalFailure = Optional.of(ofSignal);
                signalFailedAt = OptionalLong.of(now);
            }
        }
    }

    /** Mends fan and signal; what was done by actions stays done. */
    public void mend() {
        fan.mend();
        signalFailure = Optional.empty();
        fanFailedAt = OptionalLong.empty();
        signalFailedAt = OptionalLong.empty();
    }

    /** What the machine says of itself. */
    public Shown shown() {
        return new Shown(
                counting.isPresent() ? OptionalDouble.of(shownSpeed) : OptionalDouble.empty(),
                report,
                turns() ? 1 : 0,
                heat.blockKelvin(),
                target,
                heat.sinkKelvin(),
                target > 0 ? heat.heaterPower() : 0,
                blown ? 1 : 0,
                feeding && heat.blockKelvin() >= build.hotEnd().plastic().feedsAbove(),
                powered);
    }

    /** What is really the matter. */
    public Truth truth() {
        return new Truth(
                now,
                fan.speed(),
                heat.blockKelvin(),
                heat.throatKelvin(),
                heat.filamentAtThroatKelvin(),
                heat.sinkKelvin(),
                heat.softenedDepth(),
                deepest,
                build.hotEnd().softenedDepthLimit(),
                fan.failure(),
                fanFailedAt,
                signalFailure,
                signalFailedAt,
                Map.copyOf(asked));
    }

    /** Everything that is needed to go on from here. */
    public PrinterRecord record() {
        Map<String, PrinterRecord.Asked> actions = new LinkedHashMap<>();
        asked.forEach((action, when) -> actions.put(action.word(), when));
        return new PrinterRecord(
                name,
                now,
                Arrays.stream(heat.state()).boxed().toList(),
                fan.state(),
                counting.map(Counting::pulses).orElse(0.0),
                counting.map(Counting::elapsed).orElse((reportInterval - (reportEnds - now)) / NANOS),
                report,
                shownSpeed,
                signalFailure.map(Failure::word).orElse(""),
                boxed(fanFailedAt),
                boxed(signalFailedAt),
                target,
                feeding,
                blown,
                powered,
                actions,
                deepest);
    }

    private static Optional<Long> boxed(OptionalLong value) {
        return value.isPresent() ? Optional.of(value.getAsLong()) : Optional.empty();
    }
}
