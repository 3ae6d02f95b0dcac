package coldward.figures;

import coldward.figures.BaselinePicture.Column;
import java.util.Arrays;

/** The baseline for a terminal: spread of the reports, band, and a line of outliers. */
final class BaselineText {

    /** Columns left of the time axis: numbers and the axis itself. */
    private static final int LEFT = 8;

    private static final int ROWS = 11;

    private final BaselinePicture picture;
    private final TextOptions options;
    private final int width;
    private final Scale time;

    BaselineText(BaselinePicture picture, TextOptions options) {
        this.picture = picture;
        this.options = options;
        this.width = options.width() - LEFT;
        this.time = new Scale(0, picture.recording().length(), 0, width - 1);
    }

    String lines() {
        StringBuilder out = new StringBuilder();
        double[] range = picture.range();
        Scale speed = new Scale(range[0], range[1], ROWS - 1, 0);
        String[][] cells = new String[ROWS][width];
        for (String[] row : cells) {
            Arrays.fill(row, " ");
        }
        for (double edge : new double[] {picture.bandLow(), picture.bandHigh()}) {
            int row = row(speed, edge);
            for (int column = 0; column < width; column += 2) {
                cells[row][column] = ascii("╌", "-");
            }
        }
        for (Column each : picture.columns(width)) {
            int column = (int) Math.rint(time.at(each.seconds()));
            for (int row = row(speed, each.high()); row <= row(speed, each.low()); row++) {
                cells[row][column] = ascii("│", "|");
            }
            cells[row(speed, each.mean())][column] = ascii("●", "o");
        }
        String[] labels = new String[ROWS];
        Arrays.fill(labels, "");
        for (double tick : speed.ticks(5)) {
            labels[row(speed, tick)] = speed.label(tick, 5);
        }
        line(
                out,
                "rpm, " + ascii("╌", "-") + " edges of the healthy band (mean " + ascii("±", "+-") + " 3 deviations)");
        for (int row = 0; row < ROWS; row++) {
            String axis = labels[row].isEmpty() ? ascii("│", "|") : ascii("┤", "+");
            line(out, Columns.pad(labels[row], LEFT - 2, true) + " " + axis + String.join("", cells[row]));
        }
        String[] strip = new String[width];
        Arrays.fill(strip, " ");
        for (int outlier : picture.outliers()) {
            strip[(int) Math.rint(time.at(outlier * picture.recording().interval()))] = "x";
        }
        if (!picture.outliers().isEmpty()) {
            line(out, Columns.pad("x", LEFT - 2, true) + " " + ascii("│", "|") + String.join("", strip));
        }
        axis(out);
        return out.toString();
    }

    private void axis(StringBuilder out) {
        Scale units = new Scale(0, picture.recording().length() / picture.perUnit(), 0, width - 1);
        StringBuilder rule = new StringBuilder(" ".repeat(LEFT - 1) + ascii("└", "+"));
        rule.append(ascii("─", "-").repeat(width));
        StringBuilder numbers = new StringBuilder(" ".repeat(options.width()));
        for (double tick : units.ticks(Math.max(2, width / 14))) {
            int at = LEFT + (int) Math.rint(units.at(tick));
            rule.replace(at, at + 1, ascii("┬", "+"));
            String label = units.label(tick, Math.max(2, width / 14)) + " " + picture.timeUnit();
            int start = Math.clamp(at - label.length() / 2, 0, options.width() - label.length());
            numbers.replace(start, start + label.length(), label);
        }
        line(out, rule.toString());
        line(out, numbers.toString());
    }

    private static int row(Scale speed, double value) {
        return (int) Math.clamp(Math.rint(speed.at(value)), 0, ROWS - 1);
    }

    private void line(StringBuilder out, String text) {
        String cut = text.length() > options.width() ? text.substring(0, options.width()) : text;
        out.append(cut.stripTrailing()).append('\n');
    }

    private String ascii(String letter, String plain) {
        return options.ascii() ? plain : letter;
    }
}
