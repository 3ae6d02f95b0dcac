package coldward.model.design;

import coldward.model.build.Action;
import coldward.model.build.Build;
import coldward.model.build.Reading.Tachometer;
import coldward.model.build.Trip;
import coldward.model.heat.Deadline;
import coldward.model.heat.Race;
import coldward.model.reading.Readings;
import coldward.model.trip.Detection;
import coldward.model.trip.Detection.Accuracy;
import coldward.model.trip.FailureMode;
import coldward.model.trip.HealthyFan;
import coldward.model.trip.HealthyReports;
import coldward.model.trip.Margin;
import coldward.model.trip.TripChoice;
import coldward.model.trip.Trips;
import coldward.model.verdict.Advice;
import coldward.model.verdict.Assessment;
import coldward.model.verdict.Changes;
import coldward.model.verdict.Helps;
import coldward.model.verdict.UnsafeSpeeds;
import coldward.quantity.InputError;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.DoubleStream;

/**
 * The trip's design for one build: what is recommended, what the sheet's own settings are worth, and the map around both.
 * Map and changes are computed when asked for; an instance belongs to one thread.
 */
public final class TripDesign {

    /** A response has to gain more than this to be preferred to a milder one, s. */
    private static final double WORTH_MORE = 0.5;

    private static final double STEP = 10;

    private final Build build;
    private final HealthyFan fan;
    private final DesignSettings settings;
    private final boolean soft;
    private final double unsafe;
    private final double unsafe95;
    private final TripChoice choice;
    private final Deadlines deadlines;
    private final Set<Action> response;
    private final Optional<Judged> recommended;
    private final Optional<Judged> standing;
    private final SpuriousTable table;
    private final Margin nominalMargin;

    private TripDesign(
            Build build,
            HealthyFan fan,
            DesignSettings settings,
            Heat heat,
            TripChoice choice,
            Deadlines deadlines,
            Optional<Set<Action>> response,
            Accuracy accuracy,
            SpuriousTable table,
            Optional<Margin> nominalMargin) {
        this.build = build;
        this.fan = fan;
        this.settings = settings;
        this.soft = heat.soft();
        this.unsafe = heat.unsafe();
        this.unsafe95 = heat.unsafe95();
        this.choice = choice;
        this.deadlines = deadlines;
        this.table = table;
        Optional<Trip> chosen = choice instanceof TripChoice.Chosen c ? Optional.of(c.trip()) : Optional.empty();
        boolean judged = !soft && build.reading() instanceof Tachometer;
        this.response = response.orElseGet(() -> judged && chosen.isPresent()
                ? largestMargin(chosen.get())
                : build.response().actions());
        this.recommended = judged ? chosen.map(t -> judge(t, this.response, accuracy)) : Optional.empty();
        this.standing = judged ? build.trip().or(() -> chosen).map(this::judgeStanding) : Optional.empty();
        this.nominalMargin =
                nominalMargin.orElseGet(() -> standing.map(Judged::margin).orElse(new Margin.NothingSaves()));
        build.trip().ifPresent(this::checkLowest);
        chosen.ifPresent(this::checkLowest);
    }

    private record Heat(boolean soft, double unsafe, double unsafe95) {}

    /** From the sheet alone. */
    public static TripDesign of(Build build) {
        return of(build, HealthyFan.ofSheet(build), DesignSettings.USUAL);
    }

    /**
     * Designs with nominal deadlines; the unsafe speed is the 95 % quantile over {@link UnsafeSpeeds}' draws all the same.
     *
     * @param build the printer
     * @param fan its healthy fan's reports
     * @param settings which failures, and the map
     * @throws InputError if the lowest permitted speed falls below the recommended trip speed or the sheet's
     */
    public static TripDesign of(Build build, HealthyFan fan, DesignSettings settings) {
        return of(build, fan, settings, Optional.empty(), Accuracy.FINE, new SpuriousTable());
    }

    private static TripDesign of(
            Build build,
            HealthyFan fan,
            DesignSettings settings,
            Optional<Set<Action>> response,
            Accuracy accuracy,
            SpuriousTable table) {
        Race race = new Race(build.hotEnd());
        Heat heat = new Heat(race.softWhileHealthy(), race.unsafeSpeed(), UnsafeSpeeds.quantile95(build));
        TripChoice choice = build.reading() instanceof Tachometer
                ? Trips.recommended(build, fan, heat.unsafe95(), k -> table.highest(build, fan, k))
                : new TripChoice.NoReading();
        return new TripDesign(
                build,
                fan,
                settings,
                heat,
                choice,
                Deadlines.nominal(build, settings, heat.unsafe95()),
                response,
                accuracy,
                table,
                Optional.empty());
    }

    /** The draws that make bands of the deadlines of the recommended response and of the sheet's. */
    public FailureDraws draws(long seed) {
        Set<Set<Action>> both = new LinkedHashSet<>(List.of(response));
        both.add(build.response().actions());
        return new FailureDraws(build, seed, settings, unsafe95, List.copyOf(both));
    }

    /** The same trip and response, judged by the 5 % quantile of drawn deadlines. */
    public TripDesign with(List<FailureDraws.Draw> draws) {
        return new TripDesign(
                build,
                fan,
                settings,
                new Heat(soft, unsafe, unsafe95),
                choice,
                Deadlines.drawn(draws, deadlines),
                Optional.of(response),
                Accuracy.FINE,
                table,
                Optional.of(nominalMargin));
    }

    /** The printer. */
    public Build build() {
        return build;
    }

    /** Its healthy fan's reports. */
    public HealthyFan fan() {
        return fan;
    }

    /** What was looked at. */
    public DesignSettings settings() {
        return settings;
    }

    /** True if the cold side is soft with a healthy fan: no trip helps. */
    public boolean softWhileHealthy() {
        return soft;
    }

    /** Nominal unsafe speed, rpm of a fan at its rated speed. */
    public double unsafeSpeed() {
        return unsafe * build.hotEnd().fan().ratedSpeed();
    }

    /** S_low: its 95 % quantile, of the fastest fan the tolerance allows, rpm. */
    public double lowestTripSpeed() {
        return unsafe95 * fan.fullSpeed(build);
    }

    /** The trip that follows from heat and reports, or why there is none. */
    public TripChoice choice() {
        return choice;
    }

    /** The recommended trip with the response of the largest margin; empty where there is none or nothing to save. */
    public Optional<Judged> recommended() {
        return recommended;
    }

    /**
     * The printer as its sheet stands: its own trip, else the recommended one, with its own response; empty where there is
     * no trip or nothing to save.
     */
    public Optional<Judged> standing() {
        return standing;
    }

    /** True if the sheet's own settings, where it has any, and the recommended trip save the cold side in every mode. */
    public boolean safe() {
        return standing.map(Judged::safe).orElse(false);
    }

    /**
     * The largest trip speed within the sheet's limit of spurious trips, rpm; empty where no speed is read.
     *
     * @param confirmations k
     */
    public Optional<Double> highestTripSpeed(int confirmations) {
        return build.reading() instanceof Tachometer
                ? Optional.of(table.highest(build, fan, confirmations))
                : Optional.empty();
    }

    /** Judges any trip with any response. */
    public Judged judge(Trip trip, Set<Action> actions) {
        return judge(trip, actions, Accuracy.FINE);
    }

    /**
     * The margin of the printer as its sheet stands if its reports came at another interval, with everything else,
     * scatter included, as it is; nothing saves it where there is no trip or something else speaks against it.
     *
     * @param reportInterval s, 0.01 to 600
     */
    public Margin marginAt(double reportInterval) {
        if (standing.isEmpty() || standing.get().finding() != Judged.Finding.NONE) {
            return new Margin.NothingSaves();
        }
        Judged now = standing.get();
        List<Judged.ModeBudget> modes = budgets(detect(now.trip(), reportInterval, Accuracy.COARSE), now.response());
        return margin(finding(now.trip(), modes), modes);
    }

    /** The margin of the printer as its sheet stands with nominal deadlines, whatever was drawn since. */
    public Margin nominalMargin() {
        return nominalMargin;
    }

    /**
     * The single changes that buy margin for the printer as its sheet stands, the best first; all with nominal deadlines,
     * to be held against {@link #nominalMargin()}.
     */
    public List<Advice> changes() {
        Margin present = nominalMargin;
        List<Advice> found = new ArrayList<>();
        for (Changes.Change change : Changes.of(build)) {
            // each change gets the trip that is right for it
            Build other = change.build().withoutTrip();
            Set<Action> own = other.response().actions();
            HealthyFan after = fan.after(build, other);
            DesignSettings free = settings.withoutLowestSpeed();
            of(other, after, free, Optional.of(own), Accuracy.COARSE, table)
                    .standing()
                    .ifPresent(judged -> {
                        Judged.ModeBudget binding = judged.binding();
                        found.add(new Advice(
                                change.words(), binding.deadline().p05(), stopTime(binding), judged.margin()));
                    });
        }
        return found.stream()
                .filter(a -> Helps.helps(present, a.margin()))
                .sorted(Comparator.comparing(Advice::margin).reversed())
                .toList();
    }

    /** The map, for the recommended response; empty where no speed is read or the cold side is soft at once. */
    public Optional<TripMap> map() {
        if (soft || !(build.reading() instanceof Tachometer)) {
            return Optional.empty();
        }
        int most = settings.mapConfirmations();
        if (choice instanceof TripChoice.Chosen chosen) {
            most = Math.max(most, chosen.trip().confirmations() + 1);
        }
        double low = lowestTripSpeed();
        double top = fan.slowest().mean() + 2 * fan.slowest().deviation();
        double bottom = Math.max(STEP, Math.min(0.8 * low, 0.6 * top));
        double[] speeds = speeds(bottom, Math.max(top, 1.05 * low));
        List<TripMap.Cell> cells = new ArrayList<>();
        List<Double> highest = new ArrayList<>();
        for (int k = 1; k <= most; k++) {
            highest.add(table.highest(build, fan, k));
            for (double speed : speeds) {
                Trip trip = new Trip(speed, k, Trips.USUAL_GRACE);
                List<Judged.ModeBudget> modes = budgets(detect(trip, Accuracy.COARSE), response);
                cells.add(
                        new TripMap.Cell(speed, k, table.rate(build, fan, trip), margin(finding(trip, modes), modes)));
            }
        }
        return Optional.of(new TripMap(cells, low, highest));
    }

    private double[] speeds(double bottom, double top) {
        int n = settings.mapSpeeds();
        return DoubleStream.iterate(0, i -> i + 1)
                .limit(n)
                .map(i -> Math.rint((bottom + (top - bottom) * i / (n - 1)) / STEP) * STEP)
                .filter(s -> s > 0)
                .distinct()
                .toArray();
    }

    private Judged judgeStanding(Trip trip) {
        Set<Action> own = build.response().actions();
        boolean same = recommended.isPresent()
                && recommended.get().trip().equals(trip)
                && recommended.get().response().equals(own);
        return same ? recommended.get() : judge(trip, own, Accuracy.FINE);
    }

    private Set<Action> largestMargin(Trip trip) {
        Set<Action> own = build.response().actions();
        List<Set<Action>> whole = Assessment.wholeResponses();
        Set<Action> best = Assessment.stopsBoth(own) ? own : whole.getFirst();
        double bestMargin = Double.NEGATIVE_INFINITY;
        List<Detected> detected = detect(trip, Accuracy.COARSE);
        for (Set<Action> each : whole) {
            double margin = budgets(detected, each).stream()
                    .mapToDouble(m -> order(m.margin()))
                    .min()
                    .orElseThrow();
            if (margin > bestMargin + WORTH_MORE) {
                best = each;
                bestMargin = margin;
            }
        }
        return best;
    }

    private record Detected(FailureMode mode, Detection detection) {}

    private List<Detected> detect(Trip trip, Accuracy accuracy) {
        return detect(trip, tachometer().reportInterval(), accuracy);
    }

    private List<Detected> detect(Trip trip, double window, Accuracy accuracy) {
        HealthyReports reports = fan.fastest();
        List<Detected> found = new ArrayList<>();
        for (FailureMode mode : FailureMode.values()) {
            found.add(new Detected(
                    mode,
                    Detection.of(
                            reports,
                            settings.shown(mode, build, unsafe95),
                            trip.speed(),
                            trip.confirmations(),
                            window,
                            accuracy)));
        }
        return found;
    }

    private List<Judged.ModeBudget> budgets(List<Detected> detected, Set<Action> actions) {
        double after = build.response().linkLatency()
                + build.response().withActions(actions).machineLatency();
        return detected.stream()
                .map(d -> {
                    var band = deadlines.of(d.mode(), actions);
                    return new Judged.ModeBudget(
                            d.mode(), d.detection(), after, band, margin(d.detection(), after, band.p05()));
                })
                .toList();
    }

    private Judged judge(Trip trip, Set<Action> actions, Accuracy accuracy) {
        List<Judged.ModeBudget> modes = budgets(detect(trip, accuracy), actions);
        Judged.Finding finding = finding(trip, modes);
        return new Judged(trip, actions, table.rate(build, fan, trip), modes, finding, margin(finding, modes));
    }

    private static Margin margin(Judged.Finding finding, List<Judged.ModeBudget> modes) {
        return finding == Judged.Finding.BELOW_UNSAFE
                ? new Margin.NothingSaves()
                : modes.stream()
                        .filter(m -> m.mode().warms())
                        .map(Judged.ModeBudget::margin)
                        .min(Comparator.naturalOrder())
                        .orElseThrow();
    }

    private Judged.Finding finding(Trip trip, List<Judged.ModeBudget> modes) {
        boolean shownBelow = DoubleStream.of(fan.slowest().mean(), fan.fastest().mean())
                .map(s -> fan.source() == HealthyFan.Source.SHEET
                        ? Readings.of(tachometer(), s).shownRpm()
                        : s)
                .anyMatch(s -> s < trip.speed());
        if (shownBelow) {
            return Judged.Finding.TRIPS_AT_ONCE;
        }
        if (trip.speed() < lowestTripSpeed()) {
            return Judged.Finding.BELOW_UNSAFE;
        }
        boolean lost = modes.stream()
                .anyMatch(m ->
                        m.mode() == FailureMode.SIGNAL_LOST && m.detection().noticed());
        return lost ? Judged.Finding.NONE : Judged.Finding.SIGNAL_LOSS_UNNOTICED;
    }

    private static Margin margin(Detection detection, double after, Deadline deadline) {
        return switch (detection) {
            case Detection.Noticed noticed -> Margin.of(deadline, noticed.p99() + after);
            case Detection.NotNoticed never ->
                deadline instanceof Deadline.Always ? new Margin.Unlimited() : new Margin.NothingSaves();
        };
    }

    private static double stopTime(Judged.ModeBudget budget) {
        return budget.response() + (budget.detection() instanceof Detection.Noticed noticed ? noticed.p99() : 0);
    }

    private static double order(Margin margin) {
        return switch (margin) {
            case Margin.NothingSaves() -> Double.NEGATIVE_INFINITY;
            case Margin.Seconds(double seconds) -> seconds;
            case Margin.Unlimited() -> Double.POSITIVE_INFINITY;
        };
    }

    private Tachometer tachometer() {
        if (build.reading() instanceof Tachometer tachometer) {
            return tachometer;
        }
        throw new InputError("reading", "no speed is read, so there is no trip to judge");
    }

    private void checkLowest(Trip trip) {
        settings.lowestSpeed().ifPresent(rpm -> {
            if (rpm < trip.speed()) {
                throw new InputError(
                        "lowest-speed",
                        ("the healthy fan's lowest permitted speed is %.0f rpm but must not be below the trip speed"
                                        + " (%.0f rpm): it would trip whenever it is slowed")
                                .formatted(rpm, trip.speed()));
            }
        });
    }
}
