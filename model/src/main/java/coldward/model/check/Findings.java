package coldward.model.check;

import static coldward.quantity.Checks.number;

import coldward.model.build.Build;
import coldward.model.build.Reading.Tachometer;
import coldward.model.build.Response;
import coldward.model.build.Trip;
import coldward.model.check.CheckFinding.Severity;
import coldward.model.check.CheckFinding.Subject;
import coldward.model.design.Judged;
import coldward.model.design.TripDesign;
import coldward.model.heat.Deadline;
import coldward.model.reading.ReadingResult;
import coldward.model.reading.Readings;
import coldward.model.trip.HealthyFan;
import coldward.model.trip.Margin;
import coldward.model.trip.TripChoice;
import coldward.model.verdict.Advice;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** Looks for what speaks against one printer. */
final class Findings {

    /** s; what costs less is not worth saying. */
    private static final double WORTH_SAYING = 0.5;

    /** Single changes that are listed, the best first. */
    private static final int MOST_CHANGES = 4;

    private static final double ROUNDING = 1e-9;

    private final TripDesign design;
    private final Build build;
    private final Margin margin;
    private final List<Noticing> without;

    /** Computed when first asked for: every change is a design of its own. */
    private @Nullable List<Advice> advice;

    private final List<CheckFinding> found;

    Findings(TripDesign design, Margin margin, List<Noticing> without, List<CheckFinding> more) {
        this.design = design;
        this.build = design.build();
        this.margin = margin;
        this.without = without;
        this.found = new ArrayList<>(more);
    }

    List<CheckFinding> all() {
        if (design.softWhileHealthy()) {
            add(
                    Severity.ERROR,
                    Subject.HEAT,
                    new Cost.Everything(),
                    "the cold side is soft with a healthy fan",
                    "another heat break, more air on the sink or a cooler nozzle; coldward choose looks for them");
        } else {
            switch (design.choice()) {
                case TripChoice.NoReading none -> noReading();
                case TripChoice.NoRoom room -> noRoom(room);
                case TripChoice.Chosen chosen -> {}
            }
            design.standing().ifPresent(this::standing);
            reading();
        }
        facts();
        found.sort(CheckFinding.WORST_FIRST);
        return List.copyOf(found);
    }

    private void add(Severity severity, Subject subject, Cost cost, String what, String mend) {
        found.add(new CheckFinding(severity, subject, cost, what, mend));
    }

    private void noReading() {
        if (margin instanceof Margin.Unlimited) {
            add(
                    Severity.CAUTION,
                    Subject.READING,
                    new Cost.None(),
                    "no speed is read; the cold side stays firm with the fan standing, so nothing has to notice it",
                    "nothing, as long as plastic, air and nozzle stay as on the sheet");
            return;
        }
        Noticing best = without.getFirst();
        add(
                Severity.ERROR,
                Subject.READING,
                new Cost.Everything(),
                "no speed is read, so nothing notices a stopped fan",
                best.margin().saves()
                        ? best.words() + ": " + best.margin().words()
                        : "none of the ways to notice it is quick enough: see what each would buy");
    }

    private void noRoom(TripChoice.NoRoom room) {
        add(
                Severity.ERROR,
                Subject.TRIP,
                new Cost.Everything(),
                "no trip speed will do: " + why(room),
                change().orElse("another heat break or more air; coldward choose looks for them"));
    }

    private String why(TripChoice.NoRoom room) {
        boolean atFullSpeed = room.unsafeBelow() >= design.fan().fullSpeed(build) * (1 - ROUNDING);
        return atFullSpeed
                ? "in more than 5 of 100 draws of what the sheet leaves uncertain the cold side is soft with the fan at full speed"
                : "heat asks for %.0f rpm or more, but above %.0f rpm a healthy fan trips too often"
                        .formatted(room.unsafeBelow(), room.spuriousAbove());
    }

    private List<Advice> advice() {
        if (advice == null) {
            advice = design.changes();
        }
        return advice;
    }

    private Optional<String> change() {
        return advice().stream()
                .filter(a -> a.margin().saves())
                .findFirst()
                .map(a -> a.change() + ": " + a.margin().words());
    }

    private void standing(Judged standing) {
        String trip = "trip at %.0f rpm with %d confirmation%s"
                .formatted(
                        standing.trip().speed(),
                        standing.trip().confirmations(),
                        standing.trip().confirmations() == 1 ? "" : "s");
        switch (standing.finding()) {
            case TRIPS_AT_ONCE ->
                add(
                        Severity.ERROR,
                        Subject.TRIP,
                        new Cost.Everything(),
                        trip
                                + " would trip a healthy fan, whose reports begin at %.0f rpm"
                                        .formatted(design.fan().slowest().mean()),
                        recommended());
            case BELOW_UNSAFE -> {
                // where no trip speed will do that is said already
                if (design.choice() instanceof TripChoice.NoRoom) {
                    return;
                }
                add(
                        Severity.ERROR,
                        Subject.TRIP,
                        new Cost.Everything(),
                        trip
                                + " lets a fan between %.0f and %.0f rpm soften the cold side unnoticed"
                                        .formatted(standing.trip().speed(), design.lowestTripSpeed()),
                        recommended());
            }
            case SIGNAL_LOSS_UNNOTICED ->
                add(
                        Severity.ERROR,
                        Subject.TRIP,
                        new Cost.Everything(),
                        trip + " would not notice a lost signal",
                        recommended());
            case NONE -> margins(standing, trip);
        }
        double year = standing.spurious().perYear(build.hoursPerYear());
        if (year > build.spuriousTripsPerYear() && standing.finding() != Judged.Finding.TRIPS_AT_ONCE) {
            add(
                    Severity.CAUTION,
                    Subject.TRIP,
                    new Cost.None(),
                    "%s: a healthy fan would trip %.1f times a year; the sheet tolerates %s"
                            .formatted(trip, year, number(build.spuriousTripsPerYear())),
                    recommended());
        }
    }

    private String recommended() {
        return design.recommended()
                .map(j -> "trip at %.0f rpm with %d confirmations: %s"
                        .formatted(
                                j.trip().speed(),
                                j.trip().confirmations(),
                                j.margin().words()))
                .or(this::change)
                .orElse("another heat break or more air; coldward choose looks for them");
    }

    private void margins(Judged standing, String trip) {
        boolean late = !standing.margin().saves();
        Optional<Judged> best = design.recommended();
        if (late) {
            boolean mended = best.map(Judged::safe).orElse(false);
            add(
                    Severity.ERROR,
                    mended ? Subject.RESPONSE : Subject.HEAT,
                    new Cost.Everything(),
                    "%s and %s: %s, when %s"
                            .formatted(
                                    trip,
                                    Response.words(standing.response()),
                                    standing.margin().words(),
                                    standing.binding().mode().words()),
                    mended
                            ? "trip at %.0f rpm with %d confirmations and %s: %s"
                                    .formatted(
                                            best.get().trip().speed(),
                                            best.get().trip().confirmations(),
                                            Response.words(best.get().response()),
                                            best.get().margin().words())
                            : change().orElse("another heat break or more air; coldward choose looks for them"));
        }
        best.filter(Judged::safe).ifPresent(b -> costs(standing, b));
        changes();
    }

    /** Own settings against the recommended ones, one at a time. */
    private void costs(Judged standing, Judged best) {
        if (!standing.response().equals(best.response())) {
            Judged other = design.judge(standing.trip(), best.response());
            cost(
                    Subject.RESPONSE,
                    standing.margin(),
                    other.margin(),
                    "the response " + Response.words(standing.response()),
                    Response.words(best.response()) + ": " + other.margin().words());
        }
        Trip own = standing.trip();
        boolean same = own.speed() == best.trip().speed()
                && own.confirmations() == best.trip().confirmations();
        if (!same) {
            Judged other = design.judge(best.trip(), standing.response());
            cost(
                    Subject.TRIP,
                    standing.margin(),
                    other.margin(),
                    "trip at %.0f rpm with %d confirmations".formatted(own.speed(), own.confirmations()),
                    "trip at %.0f rpm with %d confirmations: %s"
                            .formatted(
                                    best.trip().speed(),
                                    best.trip().confirmations(),
                                    other.margin().words()));
        }
    }

    private void cost(Subject subject, Margin present, Margin mended, String what, String mend) {
        Cost cost = Cost.between(present, mended);
        if (worthSaying(cost)) {
            add(present.saves() ? Severity.CAUTION : Severity.ERROR, subject, cost, what, mend);
        }
    }

    private static boolean worthSaying(Cost cost) {
        return switch (cost) {
            case Cost.Everything everything -> true;
            case Cost.Deadline deadline -> true;
            case Cost.Seconds(double seconds) -> seconds >= WORTH_SAYING;
            case Cost.None none -> false;
        };
    }

    private static String gain(Cost cost, Margin then) {
        return switch (cost) {
            case Cost.Seconds(double seconds) -> "%.0f s more".formatted(Math.floor(seconds));
            case Cost.Deadline deadline -> "no need to be stopped any more";
            default -> then.words();
        };
    }

    private void changes() {
        int listed = 0;
        boolean responseSaid = found.stream().anyMatch(f -> f.subject() == Subject.RESPONSE);
        for (Advice advice : advice()) {
            Cost cost = Cost.between(design.nominalMargin(), advice.margin());
            boolean said = responseSaid && advice.change().startsWith("block-fan");
            if (listed < MOST_CHANGES && worthSaying(cost) && !said) {
                listed++;
                add(
                        Severity.NOTE,
                        Subject.HEAT,
                        cost,
                        "there could be more than now",
                        advice.change() + ": " + gain(cost, advice.margin()));
            }
        }
    }

    private void reading() {
        if (!(build.reading() instanceof Tachometer tachometer)) {
            return;
        }
        double fastest = design.fan().fullSpeed(build);
        ReadingResult result = Readings.of(tachometer, fastest);
        if (!result.honest()) {
            String remedy = result.longestHonestInterval().isPresent()
                    ? "look at the pin every %s ms or more often, or count edges"
                            .formatted(number(Math.floor(
                                            1e5 * result.longestHonestInterval().getAsDouble())
                                    / 100))
                    : "a counter that follows %.0f pulses a second"
                            .formatted(Readings.pulseRate(fastest, tachometer.pulsesPerTurn()));
            add(
                    Severity.CAUTION,
                    Subject.READING,
                    new Cost.None(),
                    "a fan at %.0f rpm, fast but within tolerance, is shown as %.0f rpm; the reading is honest up to %.0f rpm"
                            .formatted(
                                    fastest,
                                    result.shownRpm(),
                                    result.highestHonestRpm().orElse(0)),
                    remedy);
        }
    }

    private void facts() {
        if (build.restsOnClasses()) {
            Cost cost = design.standing()
                    .map(Judged::binding)
                    .map(b -> b.deadline().p50() instanceof Deadline.Until(double middle)
                                    && b.deadline().p05() instanceof Deadline.Until(double low)
                                    && middle > low
                            ? (Cost) new Cost.Seconds(middle - low)
                            : new Cost.None())
                    .orElseGet(Cost.None::new);
            add(
                    Severity.CAUTION,
                    Subject.FACTS,
                    cost,
                    "some facts are those of a class, not of this machine; the deadline that is counted on is lower for it",
                    "measure: coldward measure sink, and the sizes of the heat break with a caliper");
        }
        if (design.fan().source() == HealthyFan.Source.SHEET && build.reading() instanceof Tachometer) {
            add(
                    Severity.NOTE,
                    Subject.FACTS,
                    new Cost.None(),
                    "the healthy fan's reports are assumed from its rated speed and tolerance",
                    "record this fan for an hour and give it with --baseline");
        }
    }
}
