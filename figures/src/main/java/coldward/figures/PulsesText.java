package coldward.figures;

import coldward.figures.PulsesScene.Moment;
import coldward.model.reading.ShownCurve.Point;
import java.util.Arrays;
import java.util.List;

/** The pulses for a terminal: the pin, the looks, the counts, and the curve in letters. */
final class PulsesText {

    private static final int LEFT = 8;

    private static final int ROWS = 12;

    private final PulsesScene scene;
    private final TextOptions options;
    private final StringBuilder out = new StringBuilder();

    PulsesText(PulsesScene scene, TextOptions options) {
        this.scene = scene;
        this.options = options;
    }

    String lines() {
        train();
        wrapped(scene.counts() + (scene.on().isEmpty() ? "" : "; supply chopped"));
        out.append('\n');
        curve();
        return out.toString();
    }

    private void train() {
        int width = options.width() - LEFT;
        Scale time = new Scale(0, scene.seconds(), 0, width);
        String[] pin = new String[width];
        for (int i = 0; i < width; i++) {
            boolean high = scene.highAt((i + 0.5) / width * scene.seconds());
            pin[i] = options.ascii() ? (high ? "#" : "_") : high ? "█" : "▁";
        }
        String[] looks = new String[width];
        String[] counts = new String[width];
        Arrays.fill(looks, " ");
        Arrays.fill(counts, " ");
        int number = 0;
        for (Moment look : scene.looks()) {
            int column = (int) Math.clamp(time.at(look.seconds()), 0, width - 1);
            looks[column] = options.ascii() ? "|" : "│";
            if (look.counted()) {
                number++;
                String text = Integer.toString(number);
                for (int i = 0; i < text.length() && column + i < width; i++) {
                    counts[column + i] = text.substring(i, i + 1);
                }
            }
        }
        put(Columns.pad("pin", LEFT, false) + String.join("", pin));
        put(Columns.pad("looks", LEFT, false) + String.join("", looks));
        put(Columns.pad("counts", LEFT, false) + String.join("", counts));
    }

    private void curve() {
        int width = options.width() - LEFT;
        Scale across = new Scale(0, scene.upTo(), 0, width - 1);
        Scale up = new Scale(0, scene.highestShown() * 1.05, ROWS - 1, 0);
        String[][] cells = new String[ROWS][width];
        for (String[] row : cells) {
            Arrays.fill(row, " ");
        }
        upright(cells, across, scene.picture().ratedRpm(), options.ascii() ? ":" : "┊");
        scene.result().highestHonestRpm().ifPresent(rpm -> {
            if (rpm <= scene.upTo()) {
                upright(cells, across, rpm, options.ascii() ? "|" : "│");
            }
        });
        List<Point> points = scene.curve().points();
        for (int column = 0; column < width; column++) {
            double rpm = column / (double) (width - 1) * scene.upTo();
            cells[row(up, shown(points, rpm))][column] = options.ascii() ? "*" : "•";
        }
        cells[row(up, scene.result().shownRpm())][
                (int) Math.clamp(Math.rint(across.at(scene.picture().trueRpm())), 0, width - 1)] = "O";
        String[] labels = new String[ROWS];
        Arrays.fill(labels, "");
        for (double tick : up.ticks(4)) {
            labels[row(up, tick)] = up.label(tick, 4);
        }
        put("shown against true speed, rpm");
        for (int row = 0; row < ROWS; row++) {
            put(Columns.pad(labels[row], LEFT - 2, true) + " " + (options.ascii() ? "|" : "│")
                    + String.join("", cells[row]));
        }
        StringBuilder axis = new StringBuilder(" ".repeat(options.width()));
        int free = 0;
        for (double tick : across.ticks(5)) {
            String label = across.label(tick, 5);
            int at = Math.clamp(
                    (int) (LEFT + across.at(tick) - label.length() / 2.0), 0, options.width() - label.length());
            if (at >= free) {
                axis.replace(at, at + label.length(), label);
                free = at + label.length() + 1;
            }
        }
        put(axis.toString());
        wrapped("O now: true %.0f, shown %.0f rpm; %s rated %.0f rpm%s"
                .formatted(
                        scene.picture().trueRpm(),
                        scene.result().shownRpm(),
                        options.ascii() ? ":" : "┊",
                        scene.picture().ratedRpm(),
                        scene.result().highestHonestRpm().isPresent()
                                ? "; %s honest up to %.0f rpm"
                                        .formatted(
                                                options.ascii() ? "|" : "│",
                                                scene.result()
                                                        .highestHonestRpm()
                                                        .getAsDouble())
                                : ""));
    }

    private static int row(Scale up, double rpm) {
        return (int) Math.clamp(Math.rint(up.at(rpm)), 0, ROWS - 1);
    }

    private void upright(String[][] cells, Scale across, double rpm, String letter) {
        int column = (int) Math.clamp(Math.rint(across.at(rpm)), 0, cells[0].length - 1);
        for (String[] row : cells) {
            row[column] = letter;
        }
    }

    private static double shown(List<Point> points, double rpm) {
        for (int i = 1; i < points.size(); i++) {
            Point a = points.get(i - 1);
            Point b = points.get(i);
            if (rpm <= b.trueRpm()) {
                double share = (rpm - a.trueRpm()) / (b.trueRpm() - a.trueRpm());
                return a.shownRpm() + share * (b.shownRpm() - a.shownRpm());
            }
        }
        return points.getLast().shownRpm();
    }

    private void wrapped(String text) {
        Columns.wrap(Columns.clean(text, options.ascii()), options.width()).forEach(this::put);
    }

    private void put(String line) {
        out.append((options.ascii() ? Columns.clean(line, true) : line).stripTrailing())
                .append('\n');
    }
}
