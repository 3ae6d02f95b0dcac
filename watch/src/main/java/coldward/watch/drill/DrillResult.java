package coldward.watch.drill;

import coldward.model.build.Action;
import coldward.model.heat.Deadline;
import coldward.watch.Journal;
import coldward.watch.drill.DrillForecast.Band;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * A drill as measured and judged. Times are s after the failure.
 *
 * @param kind how the fan was made to fail
 * @param by how the failure's moment is known
 * @param uncertain s, either way, of that moment
 * @param working a job was feeding
 * @param speedBefore rpm shown before
 * @param lowest lowest speed shown from then to the end, rpm
 * @param signalLater by how much later than told the fan's own number puts the failure, s; negative: sooner; empty where
 *     its fall does not say
 * @param trip when the watch tripped; empty if it did not
 * @param steps each action
 * @param safe when the response was confirmed: the measured stop time; empty if it was not
 * @param forecast what the model expected; empty where it expects no trip
 * @param deadline of the sheet's response, for a stopped fan
 * @param verdict what it comes to
 */
public record DrillResult(
        DrillKind kind,
        FailureMoment.By by,
        double uncertain,
        boolean working,
        double speedBefore,
        double lowest,
        OptionalDouble signalLater,
        OptionalDouble trip,
        List<Step> steps,
        OptionalDouble safe,
        Optional<DrillForecast> forecast,
        Deadline deadline,
        DrillVerdict verdict) {

    /** The kind of its journal entry. */
    public static final String ENTRY = "drill";

    private static final double MILLI = 1e-3;

    /**
     * One action.
     *
     * @param action which
     * @param sent when it was requested
     * @param confirmed when its effect was seen; empty if it was not
     */
    public record Step(Action action, double sent, OptionalDouble confirmed) {}

    public DrillResult {
        steps = List.copyOf(steps);
    }

    /** The verdict of these numbers. */
    static DrillVerdict judge(
            DrillKind kind,
            double uncertain,
            OptionalDouble trip,
            OptionalDouble safe,
            Optional<DrillForecast> forecast,
            Deadline deadline) {
        if (trip.isEmpty()) {
            return DrillVerdict.NOT_NOTICED;
        }
        if (trip.getAsDouble() < 0) {
            return DrillVerdict.TOLD_LATE;
        }
        if (safe.isEmpty()) {
            return DrillVerdict.UNCONFIRMED;
        }
        // with the signal wire cut the air never stops: there is no race to lose
        if (kind != DrillKind.CUT_SIGNAL && safe.getAsDouble() > deadline.order()) {
            return DrillVerdict.TOO_LATE;
        }
        if (forecast.isEmpty()) {
            return DrillVerdict.NOT_COMPARED;
        }
        Band band = forecast.get().safe();
        if (band.holds(safe.getAsDouble(), uncertain)) {
            return DrillVerdict.AS_PREDICTED;
        }
        if (safe.getAsDouble() < band.low()) {
            return DrillVerdict.SOONER;
        }
        return safe.getAsDouble() <= forecast.get().latest() + uncertain
                ? DrillVerdict.AS_PREDICTED
                : DrillVerdict.LATER;
    }

    /** Its journal entry's facts; times are whole ms. */
    public SortedMap<String, Object> facts() {
        SortedMap<String, Object> facts = new TreeMap<>();
        facts.put("how", kind.word());
        facts.put("moment_by", by.word());
        facts.put("ms_uncertain", millis(uncertain));
        facts.put("working", working ? 1L : 0L);
        facts.put("speed_rpm", Math.round(speedBefore));
        facts.put("lowest_rpm", Math.round(lowest));
        put(facts, "ms_signal_later", signalLater);
        put(facts, "ms_trip", trip);
        for (Step step : steps) {
            String action = step.action().word().replace('-', '_');
            facts.put("ms_" + action + "_sent", millis(step.sent()));
            put(facts, "ms_" + action + "_confirmed", step.confirmed());
        }
        put(facts, "ms_safe", safe);
        forecast.ifPresent(f -> {
            band(facts, "trip", f.trip());
            band(facts, "safe", f.safe());
            facts.put("ms_safe_latest", millis(f.latest()));
        });
        facts.put("deadline", deadline.word());
        if (deadline instanceof Deadline.Until(double seconds)) {
            facts.put("ms_deadline", millis(seconds));
        }
        facts.put("result", verdict.word());
        facts.put("passed", verdict.passed() ? 1L : 0L);
        facts.put("tests", kind.tests());
        facts.put("does_not_test", kind.doesNotTest());
        return facts;
    }

    private static void put(SortedMap<String, Object> facts, String name, OptionalDouble seconds) {
        seconds.ifPresent(s -> facts.put(name, millis(s)));
    }

    private static void band(SortedMap<String, Object> facts, String of, Band band) {
        facts.put("ms_" + of + "_predicted_1", millis(band.low()));
        facts.put("ms_" + of + "_predicted_50", millis(band.median()));
        facts.put("ms_" + of + "_predicted_99", millis(band.high()));
    }

    private static long millis(double seconds) {
        return Math.round(seconds / MILLI);
    }

    /**
     * The drill of a journal entry.
     *
     * @return empty if it is no drill, or one of a kind or verdict that is not known here
     */
    public static Optional<DrillResult> of(Journal.Entry entry) {
        if (!entry.kind().equals(ENTRY)) {
            return Optional.empty();
        }
        SortedMap<String, Object> facts = entry.facts();
        Optional<DrillKind> kind = DrillKind.of(text(facts, "how"));
        Optional<FailureMoment.By> by = FailureMoment.By.of(text(facts, "moment_by"));
        Optional<DrillVerdict> verdict = DrillVerdict.of(text(facts, "result"));
        if (kind.isEmpty() || by.isEmpty() || verdict.isEmpty()) {
            return Optional.empty();
        }
        List<Step> steps = new ArrayList<>();
        for (Action action : Action.values()) {
            String word = action.word().replace('-', '_');
            OptionalDouble sent = seconds(facts, "ms_" + word + "_sent");
            sent.ifPresent(at -> steps.add(new Step(action, at, seconds(facts, "ms_" + word + "_confirmed"))));
        }
        return Optional.of(new DrillResult(
                kind.get(),
                by.get(),
                seconds(facts, "ms_uncertain").orElse(0),
                number(facts, "working").orElse(0) == 1,
                number(facts, "speed_rpm").orElse(0),
                number(facts, "lowest_rpm").orElse(0),
                seconds(facts, "ms_signal_later"),
                seconds(facts, "ms_trip"),
                steps,
                seconds(facts, "ms_safe"),
                forecast(facts),
                deadline(facts),
                verdict.get()));
    }

    private static Optional<DrillForecast> forecast(SortedMap<String, Object> facts) {
        Optional<Band> trip = band(facts, "trip");
        Optional<Band> safe = band(facts, "safe");
        OptionalDouble latest = seconds(facts, "ms_safe_latest");
        return trip.isPresent() && safe.isPresent() && latest.isPresent()
                ? Optional.of(new DrillForecast(trip.get(), safe.get(), latest.getAsDouble()))
                : Optional.empty();
    }

    private static Optional<Band> band(SortedMap<String, Object> facts, String of) {
        OptionalDouble low = seconds(facts, "ms_" + of + "_predicted_1");
        OptionalDouble median = seconds(facts, "ms_" + of + "_predicted_50");
        OptionalDouble high = seconds(facts, "ms_" + of + "_predicted_99");
        return low.isPresent() && median.isPresent() && high.isPresent()
                ? Optional.of(new Band(low.getAsDouble(), median.getAsDouble(), high.getAsDouble()))
                : Optional.empty();
    }

    private static Deadline deadline(SortedMap<String, Object> facts) {
        return switch (text(facts, "deadline")) {
            case "always" -> Deadline.always();
            case "until" -> Deadline.until(seconds(facts, "ms_deadline").orElse(0));
            default -> Deadline.never();
        };
    }

    private static String text(SortedMap<String, Object> facts, String name) {
        return facts.get(name) instanceof String text ? text : "";
    }

    private static OptionalDouble number(SortedMap<String, Object> facts, String name) {
        return facts.get(name) instanceof Long value ? OptionalDouble.of(value) : OptionalDouble.empty();
    }

    private static OptionalDouble seconds(SortedMap<String, Object> facts, String name) {
        return facts.get(name) instanceof Long value ? OptionalDouble.of(value * MILLI) : OptionalDouble.empty();
    }
}
