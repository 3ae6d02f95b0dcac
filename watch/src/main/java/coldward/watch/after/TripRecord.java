package coldward.watch.after;

import coldward.model.build.Action;
import coldward.model.build.Build;
import coldward.model.build.Reading.Tachometer;
import coldward.model.shop.ReadName;
import coldward.watch.Journal;
import coldward.watch.Recorded;
import coldward.watch.after.Likeliest.Cause;
import coldward.watch.guard.Reads;
import coldward.watch.guard.TripCause;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * A printer's last trip as the journal and the history tell it.
 *
 * @param wallMillis when it tripped, wall time, ms since 1970
 * @param cause as journalled
 * @param released whether it has been released since
 * @param recorded whether reports were recorded; else the moments are made of the journal's times
 * @param moments oldest first
 */
public record TripRecord(long wallMillis, TripCause cause, boolean released, boolean recorded, List<Moment> moments) {

    /** s before the trip from which on it is gone through; a fade takes minutes. */
    public static final double BEFORE = 600;

    /** s after the trip up to which it is gone through; by then everything is cold or steady. */
    public static final double LONGEST_AFTER = 3600;

    private static final double MILLI = 1e-3;

    public TripRecord {
        moments = List.copyOf(moments);
    }

    /**
     * The last trip.
     *
     * @param build the printer's sheet
     * @param entries the printer's journal, oldest first
     * @param history what was recorded
     * @param nowMillis wall time, ms since 1970
     * @return empty if it never tripped
     */
    public static Optional<TripRecord> last(
            String printer, Build build, List<Journal.Kept> entries, Recorded history, long nowMillis) {
        int at = -1;
        for (int i = 0; i < entries.size(); i++) {
            if (entries.get(i).entry().kind().equals("trip")) {
                at = i;
            }
        }
        if (at < 0) {
            return Optional.empty();
        }
        Journal.Entry trip = entries.get(at).entry();
        List<Journal.Entry> since = entries.subList(at, entries.size()).stream()
                .map(Journal.Kept::entry)
                .toList();
        Optional<Journal.Entry> release =
                since.stream().filter(e -> e.kind().equals("release")).findFirst();
        long end = Math.min(
                release.map(Journal.Entry::wallMillis).orElse(nowMillis),
                trip.wallMillis() + Math.round(LONGEST_AFTER / MILLI));
        List<Moment> recorded = history.between(printer, trip.wallMillis() - Math.round(BEFORE / MILLI), end).stream()
                .map(r -> moment(r, trip.wallMillis()))
                .toList();
        boolean enough =
                recorded.stream().anyMatch(m -> m.at() < 0) && recorded.stream().anyMatch(m -> m.at() > 0);
        TripCause cause =
                TripCause.of(String.valueOf(trip.facts().get("cause"))).orElse(TripCause.LOW_SPEED);
        return Optional.of(new TripRecord(
                trip.wallMillis(),
                cause,
                release.isPresent(),
                enough,
                enough ? recorded : fromJournal(build, since, (end - trip.wallMillis()) * MILLI)));
    }

    private static Moment moment(Recorded.Report report, long tripMillis) {
        Reads reads = report.reads();
        return new Moment(
                (report.wallMillis() - tripMillis) * MILLI,
                reads.find(ReadName.SPEED),
                reads.find(ReadName.NOZZLE),
                reads.find(ReadName.NOZZLE_TARGET),
                reads.find(ReadName.WORKING).orElse(0) > 0.5,
                reads.find(ReadName.BLOCK_FAN).orElse(0) > 0.05,
                reads.find(ReadName.COLD_SIDE));
    }

    /**
     * Where nothing was recorded: a job was feeding, the fan stood from one report before the first low one, and each
     * action had its effect when it was confirmed; one that never was had none.
     */
    private static List<Moment> fromJournal(Build build, List<Journal.Entry> since, double end) {
        Journal.Entry trip = since.getFirst();
        double window = build.reading() instanceof Tachometer t ? t.reportInterval() : 0;
        double low = trip.facts().get("ms_low") instanceof Long ms ? ms * MILLI : 0;
        Map<Action, Double> effective = new EnumMap<>(Action.class);
        for (Journal.Entry entry : since) {
            if (entry.kind().equals("action-confirmed")) {
                Action.of(String.valueOf(entry.facts().get("action")))
                        .ifPresent(a -> effective.putIfAbsent(a, (entry.wallMillis() - trip.wallMillis()) * MILLI));
            }
        }
        List<Double> times =
                new ArrayList<>(List.of(-low - 2 * window - 1, -low - window, -low, 0.0, Math.max(end, 1)));
        times.addAll(effective.values());
        double rated = build.hotEnd().fan().ratedSpeed();
        double nozzle = build.hotEnd().nozzle();
        return times.stream()
                .sorted()
                .distinct()
                .filter(t -> t <= Math.max(end, 1))
                .map(t -> {
                    boolean power = done(effective, Action.POWER_OFF, t);
                    return new Moment(
                            t,
                            OptionalDouble.of(t < -low ? rated : 0),
                            OptionalDouble.empty(),
                            OptionalDouble.of(power || done(effective, Action.HEATER_OFF, t) ? 0 : nozzle),
                            !power && !done(effective, Action.HOLD, t),
                            !power && done(effective, Action.BLOCK_FAN, t),
                            OptionalDouble.empty());
                })
                .toList();
    }

    private static boolean done(Map<Action, Double> effective, Action action, double at) {
        Double when = effective.get(action);
        return when != null && when <= at;
    }

    /** Gone through the heat model. */
    public After after(Build build) {
        After after = After.of(build, moments);
        return switch (cause) {
            case LOW_SPEED ->
                recorded
                        ? after
                        : after.because(
                                new Likeliest(
                                        Cause.UNKNOWN,
                                        "nothing was recorded around the trip; the fan is taken to have stood, which is the worse"));
            case UNHEARD ->
                after.because(new Likeliest(
                        Cause.UNHEARD, "the printer was not heard; look at its connection before its fan"));
            case CONTRADICTED ->
                after.because(new Likeliest(
                        Cause.CONTRADICTED, "the speed and another signal disagreed; do not trust the reading"));
        };
    }
}
