package coldward.app.command;

import static coldward.app.terminal.Json.put;

import coldward.app.history.BaselineWords;
import coldward.app.history.ReportSource;
import coldward.app.history.Told;
import coldward.app.terminal.ExitCode;
import coldward.app.terminal.Json;
import coldward.app.terminal.ProgressLine;
import coldward.app.terminal.Terminal;
import coldward.figures.TextOptions;
import coldward.figures.TextTable;
import coldward.figures.TextTable.Column;
import coldward.model.build.Build;
import coldward.model.build.Trip;
import coldward.model.shop.LinkSpec.Says;
import coldward.model.shop.WatchRules;
import coldward.quantity.Checks;
import coldward.quantity.Dimension;
import coldward.quantity.InputError;
import coldward.quantity.Units;
import coldward.sheet.Sheets;
import coldward.watch.guard.Guard;
import coldward.watch.guard.GuardEvent;
import coldward.watch.guard.GuardSettings;
import coldward.watch.replay.Backtest;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import java.util.concurrent.Callable;
import java.util.function.Consumer;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import me.tongfei.progressbar.ProgressBar;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** {@code coldward backtest}. */
@Command(
        name = "backtest",
        mixinStandardHelpOptions = true,
        description = {
            "What a trip setting would have done to recorded reports: trips, near-trips, time in doubt.",
            "Runs the watch's own guard over a CSV file, or over what the watch has kept of a printer. Several settings"
                    + " stand side by side."
        },
        footer = {
            "",
            "Examples:",
            "  coldward backtest heron.csv --trip 5600/3 --trip 6200/2",
            "  coldward backtest heron --shop shop.yaml --trip 5600/3 --sheet heron.yaml --days 30"
        })
public final class BacktestCommand implements Callable<Integer> {

    private static final Pattern TRIP = Pattern.compile("([0-9]{1,6}(?:\\.[0-9]{1,3})?)(?: ?rpm)?/([0-9]{1,3})");
    private static final int MOST_SETTINGS = 6;
    private static final int LISTED = 20;
    private static final int LOOKED_AT = 1000;
    private static final int STRIDE = 100_000;
    private static final double NS = 1e9;
    private static final double USUAL_RUNS_ABOVE = 323.15;
    private static final double SHORTEST_STEP = 0.001;

    /** As a shop file that says nothing of silence and contradiction. */
    private static final WatchRules RULES =
            new WatchRules(10, OptionalDouble.empty(), 8, false, WatchRules.USUAL_DRILL_EVERY);

    private final Terminal terminal;

    @Spec
    private @Nullable CommandSpec spec;

    @Parameters(index = "0", paramLabel = "CSV|PRINTER", description = "the recording; with --shop the printer's name")
    private String source = "";

    @Option(
            names = "--trip",
            required = true,
            paramLabel = "RPM/CONFIRMATIONS",
            description = "trip speed and confirmations, as 5600/3; up to six times")
    private List<String> trips = List.of();

    @Option(names = "--sheet", paramLabel = "SHEET", description = "take the report interval and runs_above from here")
    private @Nullable Path sheet;

    @Option(
            names = "--grace",
            paramLabel = "TIME",
            defaultValue = "5 s",
            description = "how long a starting fan is forgiven (default ${DEFAULT-VALUE})")
    private String grace = "5 s";

    @Option(names = "--shop", paramLabel = "SHOP", description = "the shop file, or its state folder")
    private @Nullable Path shop;

    @Option(
            names = "--days",
            paramLabel = "N",
            defaultValue = "30",
            description = "with --shop: only the newest N days (default ${DEFAULT-VALUE})")
    private double days;

    @Option(names = "--json", description = "print the result as JSON (docs/outputs.md, schema 'backtest')")
    private boolean json;

    public BacktestCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    /** Feeds the settings once it is known how far apart the reports are. */
    private static final class Run implements Consumer<GuardEvent.Report> {
        private final List<Trip> settings;
        private final @Nullable Build build;
        private final ProgressBar bar;
        private final List<GuardEvent.Report> early = new ArrayList<>();
        private List<Backtest> backtests = List.of();
        private long first;
        private long count;
        private double interval;

        Run(List<Trip> settings, @Nullable Build build, ProgressBar bar) {
            this.settings = settings;
            this.build = build;
            this.bar = bar;
        }

        @Override
        public void accept(GuardEvent.Report report) {
            if (count++ == 0) {
                first = report.at();
            }
            if (count % STRIDE == 0) {
                bar.stepBy(STRIDE);
            }
            if (backtests.isEmpty()) {
                early.add(report);
                if (early.size() == LOOKED_AT) {
                    begin();
                }
            } else {
                for (Backtest each : backtests) {
                    each.accept(report);
                }
            }
        }

        void begin() {
            if (!backtests.isEmpty()) {
                return;
            }
            backtests = settings.stream()
                    .map(t -> new Backtest(new Guard(guardSettings(t))))
                    .toList();
            for (GuardEvent.Report report : early) {
                backtests.forEach(b -> b.accept(report));
            }
            early.clear();
        }

        private GuardSettings guardSettings(Trip trip) {
            if (build != null) {
                GuardSettings settled = GuardSettings.of(build, trip, RULES, Says.ALWAYS);
                interval = settled.reportInterval() / NS;
                return settled;
            }
            long[] steps = new long[Math.max(1, early.size() - 1)];
            for (int i = 1; i < early.size(); i++) {
                steps[i - 1] = early.get(i).at() - early.get(i - 1).at();
            }
            Arrays.sort(steps);
            // every row is one report: half its usual step lets none fall out for coming a little early
            interval = Math.clamp(steps[steps.length / 2] / NS / 2, SHORTEST_STEP, 600);
            return new GuardSettings(
                    trip.speed(),
                    trip.confirmations(),
                    Math.round(trip.grace() * NS),
                    Math.round(interval * NS),
                    USUAL_RUNS_ABOVE,
                    Says.ALWAYS,
                    Math.round(RULES.unheardAfter() * NS),
                    OptionalLong.empty(),
                    RULES.contradictedRise(),
                    RULES.contradictedResponds(),
                    Math.round(2 * interval * NS));
        }
    }

    @Override
    public Integer call() {
        CommandLine line = Arguments.line(spec, this);
        List<Trip> settings = settings(line);
        ReportSource reports = Recordings.of(line, source, shop, days);
        Build build = sheet == null ? null : Sheets.read(sheet);
        Run run;
        Told told;
        try (ProgressBar bar = ProgressLine.bar("reports", -1, terminal)) {
            run = new Run(settings, build, bar);
            told = reports.read(run);
            run.begin();
        }
        List<Backtest.Outcome> outcomes =
                run.backtests.stream().map(Backtest::outcome).toList();
        if (json) {
            terminal.line(Json.text(json(settings, run, told, outcomes)));
        } else {
            print(settings, run, told, outcomes);
        }
        return ExitCode.DONE.number();
    }

    private List<Trip> settings(CommandLine line) {
        if (trips.size() > MOST_SETTINGS) {
            throw new ParameterException(
                    line,
                    "--trip stands " + trips.size() + " times but at most " + MOST_SETTINGS + " stand side by side");
        }
        double forgiven;
        try {
            forgiven = Units.parse(Dimension.TIME, "--grace", grace.matches("[0-9.]+") ? grace + " s" : grace);
        } catch (InputError e) {
            throw new ParameterException(line, e.getMessage(), e);
        }
        List<Trip> settings = new ArrayList<>();
        for (String each : trips) {
            Matcher matcher = TRIP.matcher(each.strip());
            if (!matcher.matches()) {
                throw new ParameterException(
                        line,
                        "--trip is '" + each + "' but must be a speed in rpm, a slash and confirmations, as 5600/3");
            }
            try {
                settings.add(
                        new Trip(Double.parseDouble(matcher.group(1)), Integer.parseInt(matcher.group(2)), forgiven));
            } catch (InputError e) {
                throw new ParameterException(line, "--trip " + each + ": " + e.getMessage(), e);
            }
        }
        return settings;
    }

    private void print(List<Trip> settings, Run run, Told told, List<Backtest.Outcome> outcomes) {
        Backtest.Outcome any = outcomes.getFirst();
        terminal.folded(
                "%s: %d reports over %s%s."
                        .formatted(
                                source,
                                any.reports(),
                                BaselineWords.length(any.length()),
                                told.wallTime() ? ", from " + Instant.ofEpochMilli(run.first / 1_000_000) : ""),
                "");
        List<List<String>> rows = new ArrayList<>();
        for (int i = 0; i < settings.size(); i++) {
            Backtest.Outcome o = outcomes.get(i);
            rows.add(List.of(
                    name(settings.get(i)),
                    Long.toString(o.tripCount()),
                    Long.toString(o.nearTripCount()),
                    Long.toString(o.doubtedSpells()),
                    "%.1f".formatted(o.doubted()),
                    "%.0f".formatted(o.unheard())));
        }
        terminal.line();
        terminal.line(new TextTable(
                        List.of(
                                Column.words("trip"),
                                Column.numbers("trips"),
                                Column.numbers("near-trips"),
                                Column.numbers("spells in doubt"),
                                Column.numbers("in doubt, s"),
                                Column.numbers("unheard, s")),
                        rows)
                .text(new TextOptions(terminal.width(), !terminal.unicode(), terminal.colour()))
                .stripTrailing());
        for (int i = 0; i < settings.size(); i++) {
            listed(
                    name(settings.get(i)) + ", trips",
                    outcomes.get(i).trips(),
                    outcomes.get(i).tripCount(),
                    run,
                    told);
            listed(
                    name(settings.get(i)) + ", near-trips (one report short)",
                    outcomes.get(i).nearTrips(),
                    outcomes.get(i).nearTripCount(),
                    run,
                    told);
        }
        if (!told.unused().isEmpty()) {
            terminal.line();
            terminal.folded("columns passed over: " + String.join(", ", told.unused()), "  ");
        }
    }

    private static String name(Trip trip) {
        return Checks.number(trip.speed()) + " rpm, " + trip.confirmations() + " in a row";
    }

    private void listed(String heading, List<Backtest.Happening> all, long count, Run run, Told told) {
        if (all.isEmpty()) {
            return;
        }
        terminal.line();
        terminal.line(heading + ":");
        for (Backtest.Happening each : all.subList(0, Math.min(LISTED, all.size()))) {
            String at = told.wallTime()
                    ? Instant.ofEpochMilli(each.at() / 1_000_000).toString()
                    : "%.2f s".formatted((each.at() - run.first) / NS);
            terminal.line("  %-26s %s%s".formatted(at, lowest(each), cause(each)));
        }
        if (count > LISTED) {
            terminal.line("  and " + (count - LISTED) + " more; --json lists up to " + Backtest.MOST_LISTED);
        }
    }

    private static String lowest(Backtest.Happening each) {
        return "lowest %.0f rpm, first low %.2f s before"
                .formatted(each.lowest(), (each.at() - each.firstLowAt()) / NS);
    }

    private static String cause(Backtest.Happening each) {
        return each.cause().map(c -> ", " + c.word()).orElse("");
    }

    private ObjectNode json(List<Trip> settings, Run run, Told told, List<Backtest.Outcome> outcomes) {
        ObjectNode node = Json.object();
        node.put("source", source);
        node.put("reports", outcomes.getFirst().reports());
        put(node, "length_s", outcomes.getFirst().length());
        if (told.wallTime()) {
            node.put("from_ms", Math.floorDiv(run.first, 1_000_000L));
        }
        put(node, "report_interval_s", run.interval);
        ArrayNode all = node.putArray("settings");
        for (int i = 0; i < settings.size(); i++) {
            Backtest.Outcome o = outcomes.get(i);
            ObjectNode one = all.addObject();
            put(one, "trip_speed_rpm", settings.get(i).speed());
            one.put("confirmations", settings.get(i).confirmations());
            put(one, "grace_s", settings.get(i).grace());
            one.put("trips", o.tripCount());
            one.put("near_trips", o.nearTripCount());
            one.put("doubted_spells", o.doubtedSpells());
            put(one, "doubted_s", o.doubted());
            one.put("unheard_spells", o.unheardSpells());
            put(one, "unheard_s", o.unheard());
            one.put("contradicted_spells", o.contradictedSpells());
            ArrayNode rows = one.putArray("rows");
            o.rows().forEach(rows::add);
            happenings(one.putArray("trip_list"), o.trips(), run, told);
            happenings(one.putArray("near_trip_list"), o.nearTrips(), run, told);
        }
        ArrayNode unused = node.putArray("unused_columns");
        told.unused().forEach(unused::add);
        return node;
    }

    private static void happenings(ArrayNode list, List<Backtest.Happening> all, Run run, Told told) {
        for (Backtest.Happening each : all) {
            ObjectNode one = list.addObject();
            one.put("at_s", Math.rint((each.at() - run.first) / NS * 1000) / 1000);
            if (told.wallTime()) {
                one.put("at_ms", Math.floorDiv(each.at(), 1_000_000L));
            }
            put(one, "low_for_s", (each.at() - each.firstLowAt()) / NS);
            put(one, "lowest_rpm", each.lowest());
            each.cause().ifPresent(c -> one.put("cause", c.word()));
        }
    }
}
