package coldward.app.shop;

import coldward.app.race.Sentences;
import coldward.app.terminal.Terminal;
import coldward.figures.TextOptions;
import coldward.figures.TextTable;
import coldward.model.shop.ReadName;
import coldward.model.trip.Margin;
import coldward.model.verdict.Assessment;
import coldward.watch.PrinterView;
import coldward.watch.guard.FanState;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/** Every printer in a line: state, speed, margin, days since the last drill; the smallest margin first. */
public final class LiveTable {

    private static final String RED = "\u001b[31m";
    private static final String YELLOW = "\u001b[33m";
    private static final String GREEN = "\u001b[32m";
    private static final String PLAIN = "\u001b[0m";

    /** Tripped printers first, then the smallest margin. */
    private static final Comparator<Line> WORST_FIRST =
            Comparator.<Line, Boolean>comparing(l -> !l.tripped()).thenComparing(Line::margin, Margin.worstFirst());

    private final ShopWatch watch;
    private final Terminal terminal;

    /** A printer as it stands while one table is made: looked at once, since it may change while lines are sorted. */
    private record Line(String name, Prepared prepared, Optional<PrinterView> view) {
        boolean tripped() {
            return view.filter(v -> v.fan() == FanState.TRIPPED).isPresent();
        }

        Optional<Margin> margin() {
            return prepared.margin(feeding(view));
        }
    }

    public LiveTable(ShopWatch watch, Terminal terminal) {
        this.watch = watch;
        this.terminal = terminal;
    }

    /** The table now, lines ended by line feeds. */
    public String text(long now, long wallMillis) {
        List<Line> lines = new ArrayList<>();
        watch.printers().forEach((name, prepared) -> lines.add(new Line(name, prepared, watch.view(name))));
        lines.sort(WORST_FIRST);
        List<List<String>> rows =
                lines.stream().map(line -> cells(line, now, wallMillis)).toList();
        String table = new TextTable(
                        List.of(
                                TextTable.Column.words("printer"),
                                TextTable.Column.words("fan"),
                                TextTable.Column.numbers("rpm"),
                                TextTable.Column.words("margin"),
                                TextTable.Column.words("last drill"),
                                TextTable.Column.words("")),
                        rows)
                .text(new TextOptions(terminal.width(), !terminal.unicode(), false));
        return terminal.colour() ? coloured(table) : table;
    }

    private static List<String> cells(Line line, long now, long wallMillis) {
        Optional<PrinterView> view = line.view();
        return List.of(
                line.name(),
                view.map(LiveTable::state).orElse("unprotected"),
                view.filter(v -> v.speed().isPresent())
                        .map(v -> "%.0f".formatted(v.speed().getAsDouble()))
                        .orElse(""),
                margin(line.prepared(), view),
                view.map(v -> LastDrill.words(
                                v.lastDrill(), line.prepared().printer().rules(), wallMillis))
                        .orElse(""),
                view.map(v -> note(line.prepared(), v, now))
                        .orElseGet(() -> Sentences.verdict(line.prepared().assessment(), Optional.empty())));
    }

    private static boolean feeding(Optional<PrinterView> view) {
        return view.map(v -> v.reads().find(ReadName.WORKING).orElse(0) > 0.5).orElse(false);
    }

    private static String margin(Prepared prepared, Optional<PrinterView> view) {
        if (prepared.assessment().outcome() instanceof Assessment.Outcome.SoftWhileHealthy) {
            return "soft already";
        }
        return prepared.margin(feeding(view)).map(Margin::words).orElse("nothing notices");
    }

    /** A fan's state in words. */
    static String state(PrinterView view) {
        return view.outOfReach() ? "out of reach" : view.fan().word();
    }

    private static String note(Prepared prepared, PrinterView view, long now) {
        String note = present(prepared, view, now);
        String bypassed =
                view.bypassUntil().isPresent() ? bypassed(view.bypassUntil().getAsLong() - now) : "";
        return bypassed.isEmpty() || note.isEmpty() ? bypassed + note : bypassed + "; " + note;
    }

    /** Nothing trips for so long: that comes first in the line. */
    private static String bypassed(long nanos) {
        double seconds = Math.max(0, nanos / 1e9);
        return seconds < 100
                ? "BYPASSED for %.0f s more: nothing trips".formatted(seconds)
                : "BYPASSED for %.0f min more: nothing trips".formatted(Math.ceil(seconds / 60));
    }

    private static String present(Prepared prepared, PrinterView view, long now) {
        if (view.trip().isPresent()) {
            return trip(prepared, view.trip().get(), now);
        }
        return switch (view.fan()) {
            case DOUBTED ->
                "%d of %d reports below %.0f rpm"
                        .formatted(
                                view.confirmations(),
                                prepared.assessment().trip().orElseThrow().confirmations(),
                                prepared.assessment().trip().orElseThrow().speed());
            case UNHEARD ->
                view.age(now).isPresent()
                        ? "no report for %.0f s".formatted(view.age(now).getAsDouble())
                        : "no report yet";
            case CONTRADICTED -> "speed and other signals disagree";
            default -> "";
        };
    }

    private static String trip(Prepared prepared, PrinterView.TripView trip, long now) {
        double since = (now - trip.trippedAt()) / 1e9;
        String ago = since < 100 ? "%.0f s".formatted(since) : "%.0f min".formatted(since / 60);
        return switch (trip.outcome()) {
            case RUNNING -> "tripped " + ago + " ago, response under way";
            case UNCONFIRMED -> "tripped " + ago + " ago, response NOT confirmed: go to the machine";
            case SAFE ->
                "tripped %s ago, safe %s; release it by name when mended"
                        .formatted(
                                ago,
                                trip.secondsToSafe().isPresent()
                                        ? "%.1f s after the first low report (predicted at most %.1f s from the failure)"
                                                .formatted(
                                                        trip.secondsToSafe().getAsDouble(),
                                                        prepared.stopTime().orElse(0))
                                        : "");
        };
    }

    /** State words in the colours of IEC 60073; the word itself always stays. */
    private static String coloured(String table) {
        return table.replaceAll("(?m)^(\\S+ +)(tripped)\\b", "$1" + RED + "$2" + PLAIN)
                .replaceAll("(?m)^(\\S+ +)(doubted|unheard|contradicted|unprotected)\\b", "$1" + YELLOW + "$2" + PLAIN)
                .replaceAll("(?m)^(\\S+ +)(turning)\\b", "$1" + GREEN + "$2" + PLAIN);
    }
}
