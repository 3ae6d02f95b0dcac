package coldward.figures;

import coldward.figures.RacePicture.Sample;
import coldward.figures.RacePicture.Series;
import coldward.figures.RaceScene.Segment;
import coldward.model.heat.Deadline;
import coldward.quantity.Checks;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;

/** The race for a terminal: the same axes, curves, bar and post in letters. */
final class RaceText {

    /** Columns left of the time axis: numbers and the axis itself. */
    private static final int LEFT = 7;

    private static final String FILLS = "░▒▓█▚";

    private static final String ASCII_FILLS = "/+=#\\";

    private static final List<String> PARTS = List.of("coast", "reading", "confirmations", "link", "machine");

    private final RaceScene scene;
    private final TextOptions options;
    private final int width;
    private final Scale time;
    private final StringBuilder out = new StringBuilder();

    RaceText(RaceScene scene, TextOptions options) {
        this.scene = scene;
        this.options = options;
        this.width = options.width() - LEFT;
        this.time = new Scale(0, scene.end(), 0, width - 1);
    }

    String lines() {
        RacePicture picture = scene.picture();
        wrapped("", picture.printer() + " · " + picture.plastic() + " · fan fails while " + picture.state());
        wrapped("", picture.verdict());
        out.append('\n');
        plot();
        race();
        stopTime();
        legend();
        return out.toString();
    }

    private void plot() {
        wrapped("", "°C, filament where the cold side begins");
        int rows = Math.clamp(options.width() / 5, 10, 18);
        Scale heat = new Scale(scene.low(), scene.high(), rows - 1, 0);
        String[][] cells = new String[rows][width];
        for (String[] row : cells) {
            Arrays.fill(row, " ");
        }
        int level = (int) Math.rint(heat.at(scene.picture().softensAt()));
        for (int column = 0; column < width; column++) {
            cells[level][column] = column % 2 == 0 ? ascii("╌", "-") : " ";
        }
        for (boolean chosen : new boolean[] {false, true}) {
            for (int i = 0; i < scene.series().size(); i++) {
                if (scene.series().get(i).chosen() == chosen) {
                    curve(cells, heat, i);
                }
            }
        }
        levelLabel(cells, level);
        String[] labels = new String[rows];
        Arrays.fill(labels, "");
        int most = Math.max(3, rows / 3);
        for (double tick : heat.ticks(most)) {
            labels[(int) Math.rint(heat.at(tick))] = heat.label(tick, most);
        }
        for (int row = 0; row < rows; row++) {
            String axis = labels[row].isEmpty() ? ascii("│", "|") : ascii("┤", "+");
            put(Columns.pad(labels[row], LEFT - 2, true) + " " + axis + String.join("", cells[row]));
        }
        timeAxis();
    }

    /** The chosen curve in every column, the others in every third, its letter at the end of each. */
    private void curve(String[][] cells, Scale heat, int index) {
        Series one = scene.series().get(index);
        int last = column(one.samples().getLast().seconds());
        for (int column = 0; column <= last; column++) {
            if (one.chosen() || column == last || column % 3 == index % 3) {
                double seconds = Math.min(
                        column / time.end() * time.to(), one.samples().getLast().seconds());
                if (seconds >= one.samples().getFirst().seconds()) {
                    int row = (int) Math.rint(heat.at(celsius(one.samples(), seconds)));
                    cells[row][column] = letter(index);
                }
            }
        }
    }

    private static double celsius(List<Sample> samples, double seconds) {
        for (int i = 1; i < samples.size(); i++) {
            Sample a = samples.get(i - 1);
            Sample b = samples.get(i);
            if (seconds <= b.seconds()) {
                double share = (seconds - a.seconds()) / (b.seconds() - a.seconds());
                return a.celsius() + share * (b.celsius() - a.celsius());
            }
        }
        return samples.getLast().celsius();
    }

    /** Into the level's own line, or the one next to it, where it covers no curve if there is such a place. */
    private void levelLabel(String[][] cells, int level) {
        String text = " softens at " + Checks.number(Math.rint(scene.picture().softensAt() * 10) / 10) + " "
                + ascii("°C", "degC") + " ";
        int length = Columns.width(text);
        int bestRow = level;
        int bestColumn = 1;
        int least = Integer.MAX_VALUE;
        for (int row : new int[] {level, level - 1, level + 1}) {
            for (int column = 1; row >= 0 && row < cells.length && column + length <= width; column++) {
                int covered = 0;
                for (int i = column; i < column + length; i++) {
                    covered += Character.isLetter(cells[row][i].codePointAt(0)) ? 1 : 0;
                }
                if (covered < least) {
                    least = covered;
                    bestRow = row;
                    bestColumn = column;
                }
            }
        }
        for (int i = 0; i < text.length(); i++) {
            cells[bestRow][bestColumn + i] = text.substring(i, i + 1);
        }
    }

    private void timeAxis() {
        int most = Math.max(3, width / 12);
        StringBuilder axis = new StringBuilder(ascii("─", "-").repeat(width));
        StringBuilder labels = new StringBuilder(" ".repeat(options.width()));
        int free = 0;
        for (double tick : time.ticks(most)) {
            int column = column(tick);
            axis.replace(column, column + 1, ascii("┬", "+"));
            String label = time.label(tick, most) + " s";
            int at = Math.clamp(LEFT + column - label.length() / 2, 0, options.width() - label.length());
            if (at >= free) {
                labels.replace(at, at + label.length(), label);
                free = at + label.length() + 1;
            }
        }
        put(" ".repeat(LEFT - 1) + ascii("└", "+") + axis);
        put(labels.toString());
    }

    /** Margin in words, the stretch it means, the bar with the post, the deadline in words. */
    private void race() {
        int stop = column(scene.stopTime().orElse(0.0));
        int post = scene.post().map(this::column).orElse(width - 1);
        String words = sign() + " " + scene.marginWords();
        int length = Columns.width(words);
        int at = Math.clamp(LEFT + (stop + post) / 2 - length / 2, 0, options.width() - length);
        out.append(" ".repeat(at)).append(coloured(words)).append('\n');
        boolean doomed = scene.picture().deadline() instanceof Deadline.Never;
        int a = Math.min(stop, post);
        int b = Math.max(stop, post);
        if (scene.stopTime().isPresent() && !doomed && b - a >= 2) {
            String open = scene.post().isEmpty() || stop < post ? "" : " ";
            put(" ".repeat(LEFT + a)
                    + open
                    + ascii("◄", "<")
                    + ascii("─", "-").repeat(b - a - 1 - open.length())
                    + ascii("►", ">"));
        }
        String[] bar = new String[width];
        Arrays.fill(bar, scene.stopTime().isPresent() ? " " : ascii("·", "."));
        for (Segment segment : scene.segments()) {
            int from = column(segment.from());
            int to = Math.max(from + 1, column(segment.to()));
            for (int i = from; i < Math.min(to, width); i++) {
                bar[i] = fill(segment.word());
            }
        }
        scene.post().ifPresentOrElse(p -> bar[column(p)] = ascii("┃", "|"), () -> bar[width - 1] = ascii("►", ">"));
        put(" ".repeat(LEFT) + String.join("", bar));
        String deadline = ascii("▲", "^") + " deadline " + scene.deadlineWords();
        String before = "deadline " + scene.deadlineWords() + " " + ascii("▲", "^");
        boolean fits = LEFT + post + deadline.length() <= options.width();
        put(" ".repeat(fits ? LEFT + post : LEFT + post + 1 - before.length()) + (fits ? deadline : before));
        out.append('\n');
    }

    private void stopTime() {
        switch (scene.picture().stop()) {
            case RacePicture.Known known -> {
                List<String> parts = scene.segments().stream()
                        .map(s -> fill(s.word()) + " " + s.word() + " " + RaceScene.seconds(s.to() - s.from()))
                        .toList();
                String total = "stop time " + RaceScene.seconds(scene.stopTime().orElse(0.0));
                parts(parts.isEmpty() ? total : total + ":", parts);
            }
            case RacePicture.Missing(String why) -> wrapped("", "no stop time: " + why);
        }
    }

    /** Parts that are not torn at a line's end. */
    private void parts(String head, List<String> parts) {
        StringBuilder line = new StringBuilder(head);
        for (String part : parts) {
            if (line.length() + 2 + part.length() > options.width()) {
                put(line.toString());
                line.setLength(0);
                line.append("  ").append(part);
            } else {
                line.append("  ").append(part);
            }
        }
        put(line.toString());
    }

    private void legend() {
        for (int i = 0; i < scene.series().size(); i++) {
            Series one = scene.series().get(i);
            Sample top = one.samples().stream()
                    .reduce((a, b) -> b.celsius() > a.celsius() ? b : a)
                    .orElseThrow();
            wrapped(
                    letter(i) + "  ",
                    one.label() + ", at most " + Math.round(top.celsius()) + " " + ascii("°C", "degC")
                            + (one.banded()
                                    ? " (%d to %d)".formatted(Math.round(top.low()), Math.round(top.high()))
                                    : "")
                            + " at " + RaceScene.seconds(top.seconds()) + (one.chosen() ? " - chosen" : ""));
        }
    }

    private int column(double seconds) {
        return (int) Math.clamp(Math.rint(time.at(seconds)), 0, width - 1);
    }

    private static String letter(int index) {
        return Character.toString('A' + index % 26);
    }

    private String fill(String word) {
        String fills = options.ascii() ? ASCII_FILLS : FILLS;
        int index = PARTS.indexOf(word);
        return fills.substring(index, index + 1);
    }

    private String sign() {
        return switch (scene.marginTone()) {
            case NORMAL -> ascii("●", "(ok)");
            case ABNORMAL -> ascii("▲", "(?)");
            default -> ascii("◆", "(!)");
        };
    }

    private String coloured(String words) {
        if (!options.colour()) {
            return words;
        }
        String code = switch (scene.marginTone()) {
            case NORMAL -> "32";
            case ABNORMAL -> "33";
            default -> "31";
        };
        return "\u001b[1;" + code + "m" + words + "\u001b[0m";
    }

    private String ascii(String full, String plain) {
        return options.ascii() ? plain : full;
    }

    private void wrapped(String head, String text) {
        String clean = Columns.clean(text, options.ascii());
        List<String> lines = new ArrayList<>(Columns.wrap(clean, options.width() - head.length()));
        IntStream.range(0, lines.size()).forEach(i -> put((i == 0 ? head : " ".repeat(head.length())) + lines.get(i)));
    }

    private void put(String line) {
        out.append((options.ascii() ? Columns.clean(line, true) : line).stripTrailing())
                .append('\n');
    }
}
