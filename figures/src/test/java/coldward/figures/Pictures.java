package coldward.figures;

import coldward.figures.RacePicture.Known;
import coldward.figures.RacePicture.Missing;
import coldward.figures.RacePicture.Series;
import coldward.figures.RacePicture.Stop;
import coldward.model.heat.Deadline;
import coldward.model.trip.Margin;
import coldward.model.trip.StopTimeBudget;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;

/** Pictures to draw: the cases that must look right, and a seeded stream of others. Curves are invented shapes. */
public final class Pictures {

    private static final StopTimeBudget BUDGET = new StopTimeBudget(0.43, 1.23, 2, 0.2, 2);

    private Pictures() {}

    /** Named cases. */
    public static Map<String, RacePicture> cases() {
        Map<String, RacePicture> cases = new LinkedHashMap<>();
        cases.put("spare", heron(new Known(BUDGET), Deadline.until(41), Optional.empty(), true));
        cases.put(
                "late",
                heron(new Known(new StopTimeBudget(0.43, 9, 20, 0.2, 24)), Deadline.until(41), Optional.empty(), true));
        cases.put("never", heron(new Known(BUDGET), Deadline.never(), Optional.empty(), false));
        cases.put("always", heron(new Known(BUDGET), Deadline.always(), Optional.empty(), false));
        cases.put(
                "unread",
                heron(
                        new Missing("no speed is read: nothing notices a stopped fan"),
                        Deadline.until(41),
                        Optional.of(new Margin.NothingSaves()),
                        true));
        cases.put(
                "always-low",
                new RacePicture(
                        "finch & <robin> \"the one with the very long name at the window of the second workshop, left bench\"",
                        "PETG",
                        "hot-idle",
                        78,
                        heron(new Known(BUDGET), Deadline.always(), Optional.empty(), false)
                                .series(),
                        "The trip speed is above what the fan turns: this printer would be stopped at once, every time.",
                        new Missing(
                                "the trip speed (9000 rpm) is above the speed shown (8000 rpm): every report is low"),
                        Deadline.until(60),
                        Optional.empty()));
        cases.put("short", scaled("wren", 0.5, 0.3));
        cases.put("long", scaled("plover", 1800, 1500));
        cases.put(
                "bare",
                new RacePicture(
                        "robin",
                        "ABS",
                        "printing",
                        105,
                        List.of(),
                        "No curve was computed.",
                        new Known(BUDGET),
                        Deadline.until(7),
                        Optional.of(new Margin.Seconds(1.14))));
        return cases;
    }

    /** The picture of a printer like the example sheet's. */
    public static RacePicture heron(Stop stop, Deadline deadline, Optional<Margin> margin, boolean banded) {
        double[] t = times(900, 181);
        List<Series> series = new ArrayList<>();
        series.add(curve("[hold]", false, t, banded, 46, s -> 46 + 62 * (1 - Math.exp(-s / 70))));
        series.add(curve("[hold, heater-off]", true, t, banded, 46, s -> 46 + hump(s, 16, 95, 210)));
        series.add(curve("[hold, heater-off, block-fan]", false, t, banded, 46, s -> 46 + hump(s, 9, 70, 150)));
        series.add(curve("[power-off]", false, t, banded, 46, s -> 46 + hump(s, 15.4, 92, 205)));
        series.add(curve("nothing done", false, t, banded, 46, s -> 46 + 44 * (1 - Math.exp(-s / 120))));
        double total = stop instanceof Known(StopTimeBudget budget) ? budget.total() : 0;
        return new RacePicture(
                "heron",
                "PLA",
                "printing",
                60,
                series,
                "If the fan stops while printing, [hold, heater-off] keeps the filament firm when it takes effect within 41 s;"
                        + " it does after 5.9 s in the worst case.",
                stop,
                deadline,
                margin.isPresent() ? margin : Optional.of(Margin.of(deadline, total)));
    }

    private static RacePicture scaled(String printer, double span, double deadline) {
        double[] t = times(span, 200);
        return new RacePicture(
                printer,
                "PLA",
                "printing",
                60,
                List.of(
                        curve("nothing done", false, t, false, 30, s -> 30 + 10 * s / span),
                        curve("[hold, heater-off]", true, t, true, 30, s -> 30 + 4 * s / span)),
                "Everything stays below the softening temperature for as long as it is looked at.",
                new Known(new StopTimeBudget(0, 0.1 * span, 0.2 * span, 0.01 * span, 0.05 * span)),
                Deadline.until(deadline),
                Optional.of(Margin.of(Deadline.until(deadline), 0.36 * span)));
    }

    /** Picture number {@code seed} of an endless stream. */
    public static RacePicture random(long seed) {
        Random random = new Random(seed);
        double span = Math.pow(10, -0.3 + 3.6 * random.nextDouble());
        double[] t = times(span, 60);
        List<Series> series = new ArrayList<>();
        int count = random.nextInt(7);
        double start = 20 + 60 * random.nextDouble();
        for (int i = 0; i < count; i++) {
            double rise = random.nextInt(3) == 0 ? 3 * random.nextDouble() : 160 * random.nextDouble();
            double tau = span * (0.05 + random.nextDouble());
            String label = List.of(
                            "[hold]",
                            "[heater-off]",
                            "[hold, heater-off]",
                            "[hold, heater-off, block-fan]",
                            "[power-off]",
                            "nothing done",
                            "[hold, heater-off, block-fan, power-off]")
                    .get(i);
            series.add(curve(
                    label, i == 1, t, random.nextBoolean(), start, s -> start + rise * (1 - Math.exp(-s / tau))));
        }
        Deadline deadline = switch (random.nextInt(5)) {
            case 0 -> Deadline.never();
            case 1 -> Deadline.always();
            default -> Deadline.until(span * random.nextDouble());
        };
        double[] part = new double[5];
        for (int i = 0; i < 5; i++) {
            part[i] = random.nextInt(4) == 0 ? 0 : span * 0.3 * Math.pow(random.nextDouble(), 3);
        }
        Stop stop = random.nextInt(6) == 0
                ? new Missing("no speed is read: nothing notices a stopped fan")
                : new Known(new StopTimeBudget(part[0], part[1], part[2], part[3], part[4]));
        Optional<Margin> margin = switch (stop) {
            case Known(StopTimeBudget budget) -> Optional.of(Margin.of(deadline, budget.total()));
            case Missing(String why) ->
                random.nextBoolean() ? Optional.empty() : Optional.of(new Margin.NothingSaves());
        };
        return new RacePicture(
                "wren ".repeat(1 + random.nextInt(12)).strip(),
                "PLA",
                random.nextBoolean() ? "printing" : "hot-idle",
                40 + 100 * random.nextDouble(),
                series,
                "One sentence that says what happens. "
                        .repeat(1 + random.nextInt(4))
                        .strip(),
                stop,
                deadline,
                margin);
    }

    private static double hump(double s, double height, double peak, double fall) {
        return height * (s / peak) * Math.exp(1 - s / peak) - 16 * (1 - Math.exp(-s / (4 * fall)));
    }

    private static double[] times(double span, int count) {
        double[] times = new double[count];
        for (int i = 0; i < count; i++) {
            times[i] = span * i / (count - 1);
        }
        return times;
    }

    private static Series curve(
            String label,
            boolean chosen,
            double[] t,
            boolean banded,
            double start,
            java.util.function.DoubleUnaryOperator law) {
        double[] celsius = new double[t.length];
        double[] low = new double[t.length];
        double[] high = new double[t.length];
        for (int i = 0; i < t.length; i++) {
            celsius[i] = law.applyAsDouble(t[i]);
            low[i] = celsius[i] - 1 - 0.12 * Math.abs(celsius[i] - start);
            high[i] = celsius[i] + 1 + 0.14 * Math.abs(celsius[i] - start);
        }
        return banded ? Series.banded(label, chosen, t, celsius, low, high) : Series.of(label, chosen, t, celsius);
    }
}
