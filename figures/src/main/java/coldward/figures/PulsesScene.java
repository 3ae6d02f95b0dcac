package coldward.figures;

import coldward.model.build.Reading.Edge;
import coldward.model.build.Reading.PeriodTimer;
import coldward.model.build.Reading.Sampled;
import coldward.model.reading.Chopping;
import coldward.model.reading.ReadingResult;
import coldward.model.reading.Readings;
import coldward.model.reading.ShownCurve;
import coldward.quantity.Checks;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * A stretch of the pulse train with what the counter makes of it, and the curve of shown against true speed.
 *
 * @param picture what is shown
 * @param seconds length of the stretch, s
 * @param changes the pin's changes from low at the beginning, by turns up and down, s
 * @param on stretches in which a chopped supply is on, from and to, s; empty for a steady supply
 * @param looks moments at which the counter looks or counts
 * @param result what is shown of the true speed
 * @param curve shown against true
 * @param upTo the highest true speed of the curve, rpm
 */
record PulsesScene(
        PulsesPicture picture,
        double seconds,
        List<Double> changes,
        List<Mark.Place> on,
        List<Moment> looks,
        ReadingResult result,
        ShownCurve curve,
        double upTo) {

    /** Pulses that still can be told apart in a drawing. */
    private static final double MOST_PULSES = 36;

    private static final int LOOKS = 14;

    private static final int EDGES = 8;

    private static final int POINTS = 400;

    /** One look at the pin, or one edge. */
    record Moment(double seconds, boolean high, boolean counted) {}

    static PulsesScene of(PulsesPicture picture) {
        double rate = Readings.pulseRate(picture.trueRpm(), picture.reading().pulsesPerTurn());
        double seconds = length(picture, rate);
        Optional<Chopping> chopping = picture.conditions().chopping().filter(c -> c.onShare() < 1);
        List<Double> changes = new ArrayList<>();
        List<Mark.Place> on = new ArrayList<>();
        supply(chopping, seconds, on);
        changes(picture, rate, seconds, on, changes);
        ReadingResult result = Readings.of(picture.reading(), picture.trueRpm(), picture.conditions());
        double upTo = 1.35 * Math.max(picture.ratedRpm(), picture.trueRpm());
        if (result.highestHonestRpm().isPresent() && result.highestHonestRpm().getAsDouble() < 3 * picture.ratedRpm()) {
            upTo = Math.max(upTo, 1.3 * result.highestHonestRpm().getAsDouble());
        }
        return new PulsesScene(
                picture,
                seconds,
                List.copyOf(changes),
                List.copyOf(on),
                moments(picture, changes, seconds),
                result,
                Readings.curve(picture.reading(), picture.conditions(), upTo, POINTS),
                upTo);
    }

    private static double length(PulsesPicture picture, double rate) {
        double wanted = picture.reading().counter() instanceof Sampled(double every)
                ? Math.max(LOOKS * every, rate > 0 ? 4 / rate : 0)
                : rate > 0 ? EDGES / rate : 0.1;
        return rate > 0 ? Math.min(wanted, MOST_PULSES / rate) : wanted;
    }

    private static void supply(Optional<Chopping> chopping, double seconds, List<Mark.Place> on) {
        chopping.ifPresent(c -> {
            double period = 1 / c.frequency();
            // more than can be drawn apart is left out after the stretch's end anyway
            for (double at = -0.3 * period; at < seconds && on.size() < 2000; at += period) {
                on.add(new Mark.Place(Math.max(0, at), Math.min(seconds, at + c.onShare() * period)));
            }
            on.removeIf(place -> place.y() <= place.x());
        });
    }

    private static void changes(
            PulsesPicture picture, double rate, double seconds, List<Mark.Place> on, List<Double> changes) {
        if (rate == 0) {
            return;
        }
        double duty = picture.reading().duty();
        List<Mark.Place> supply = on.isEmpty() ? List.of(new Mark.Place(0, seconds)) : on;
        for (Mark.Place powered : supply) {
            for (double k = Math.floor(powered.x() * rate) - 1; k / rate < powered.y(); k++) {
                double from = Math.max(powered.x(), (k + 1 - duty) / rate);
                double to = Math.min(powered.y(), (k + 1) / rate);
                if (to > from) {
                    changes.add(from);
                    changes.add(to);
                }
            }
        }
    }

    boolean highAt(double at) {
        return high(changes, at);
    }

    private static boolean high(List<Double> changes, double at) {
        int past = 0;
        while (past < changes.size() && changes.get(past) <= at) {
            past++;
        }
        return past % 2 == 1;
    }

    private static List<Moment> moments(PulsesPicture picture, List<Double> changes, double seconds) {
        List<Moment> moments = new ArrayList<>();
        switch (picture.reading().counter()) {
            case Sampled(double every) -> {
                boolean before = true;
                for (int i = 0; (i + 0.4) * every < seconds; i++) {
                    double at = (i + 0.4) * every;
                    boolean now = high(changes, at);
                    moments.add(new Moment(at, now, now && !before));
                    before = now;
                }
            }
            case Edge edge -> {
                double free = 0;
                for (int i = 0; i + 1 < changes.size(); i += 2) {
                    double at = changes.get(i);
                    double low = i == 0 ? Double.POSITIVE_INFINITY : at - changes.get(i - 1);
                    boolean seen = Math.min(low, changes.get(i + 1) - at) >= edge.shortestLevel() || at == 0;
                    boolean counted = seen && at >= free && at > 0;
                    moments.add(new Moment(at, true, counted));
                    free = counted ? at + edge.lockOut() : free;
                }
            }
            case PeriodTimer timer -> {
                for (int i = 0; i < changes.size(); i += 2) {
                    moments.add(new Moment(changes.get(i), true, changes.get(i) > 0));
                }
            }
        }
        return List.copyOf(moments);
    }

    long counted() {
        return looks.stream().filter(Moment::counted).count();
    }

    /** Rises of the pin in the stretch. */
    long rises() {
        return changes.size() / 2L - (changes.isEmpty() || changes.getFirst() > 0 ? 0 : 1);
    }

    String counts() {
        String stretch = Checks.number(Math.rint(seconds * 1e5) / 1e2) + " ms";
        return switch (picture.reading().counter()) {
            case Sampled(double every) ->
                "looked at every %s ms: counts %d of %d pulses in %s"
                        .formatted(Checks.number(Math.rint(every * 1e6) / 1e3), counted(), rises(), stretch);
            case Edge edge -> "every rise is counted: %d of %d in %s".formatted(counted(), rises(), stretch);
            case PeriodTimer timer -> "times from rise to rise: %d rises in %s".formatted(counted(), stretch);
        };
    }

    String facts() {
        return "%s · %.0f rpm · %d pulses a turn · high %.0f %% of the time"
                .formatted(
                        switch (picture.reading().counter()) {
                            case Sampled s -> "sampled";
                            case Edge e -> "edges";
                            case PeriodTimer t -> "period timer";
                        },
                        picture.trueRpm(),
                        picture.reading().pulsesPerTurn(),
                        100 * picture.reading().duty());
    }

    double highestShown() {
        double top = picture.ratedRpm();
        for (double shown : curve.shownRpm()) {
            top = Math.max(top, shown);
        }
        return Math.max(top, upTo * 0.6);
    }

    String description() {
        return picture.verdict() + " " + facts() + ". " + counts() + "."
                + (result.highestHonestRpm().isPresent()
                        ? " Honest up to %.0f rpm."
                                .formatted(result.highestHonestRpm().getAsDouble())
                        : "")
                + " Rated speed %.0f rpm.".formatted(picture.ratedRpm());
    }
}
