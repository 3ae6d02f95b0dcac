package coldward.figures;

import static coldward.quantity.Checks.within;

import coldward.quantity.InputError;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;

/**
 * A table for a terminal. Columns are as wide as they need to be; what is missing is taken from the last one first, down
 * to 12, then from the widest, and cells are wrapped.
 *
 * @param columns at least one
 * @param rows each with as many cells as there are columns, in the caller's order
 */
public record TextTable(List<Column> columns, List<List<String>> rows) {

    private static final int GAP = 2;

    private static final int LEAST_LAST = 12;

    /**
     * One column.
     *
     * @param heading its name, with the unit where it has one
     * @param right true for numbers, which stand under one another at their last digit
     */
    public record Column(String heading, boolean right) {

        /** A column of words. */
        public static Column words(String heading) {
            return new Column(heading, false);
        }

        /** A column of numbers. */
        public static Column numbers(String heading) {
            return new Column(heading, true);
        }
    }

    public TextTable {
        columns = List.copyOf(columns);
        rows = rows.stream().map(List::copyOf).toList();
        if (columns.isEmpty()) {
            throw new InputError("columns", "columns is empty but a table needs at least one");
        }
        for (List<String> row : rows) {
            if (row.size() != columns.size()) {
                throw new InputError(
                        "rows",
                        "a row has %d cells but the table has %d columns".formatted(row.size(), columns.size()));
            }
        }
    }

    /**
     * The table as lines, each ended by a line feed, no trailing spaces.
     *
     * @param options width and letters; tables carry no colour of their own
     */
    public String text(TextOptions options) {
        List<List<String>> all = new ArrayList<>();
        all.add(columns.stream()
                .map(c -> Columns.clean(c.heading(), options.ascii()))
                .toList());
        rows.forEach(row -> all.add(
                row.stream().map(cell -> Columns.clean(cell, options.ascii())).toList()));
        int[] widths = widths(all, options.width());
        StringBuilder out = new StringBuilder();
        line(out, all.getFirst(), widths);
        String rule = options.ascii() ? "-" : "─";
        line(out, IntStream.of(widths).mapToObj(rule::repeat).toList(), widths);
        all.subList(1, all.size()).forEach(row -> line(out, row, widths));
        return out.toString();
    }

    private int[] widths(List<List<String>> all, int width) {
        int count = columns.size();
        within("columns", count, 1, width / (GAP + 2));
        int[] widths = new int[count];
        for (List<String> row : all) {
            for (int i = 0; i < count; i++) {
                widths[i] = Math.max(Math.max(2, widths[i]), Columns.width(row.get(i)));
            }
        }
        int over = IntStream.of(widths).sum() + GAP * (count - 1) - width;
        int last = Math.max(0, Math.min(over, widths[count - 1] - LEAST_LAST));
        widths[count - 1] -= last;
        for (over -= last; over > 0; over--) {
            int widest = IntStream.range(0, count)
                    .reduce((a, b) -> widths[b] >= widths[a] ? b : a)
                    .orElseThrow();
            widths[widest]--;
        }
        return widths;
    }

    private void line(StringBuilder out, List<String> cells, int[] widths) {
        List<List<String>> wrapped = new ArrayList<>();
        for (int i = 0; i < widths.length; i++) {
            wrapped.add(Columns.wrap(cells.get(i), widths[i]));
        }
        int height = wrapped.stream().mapToInt(List::size).max().orElse(1);
        for (int row = 0; row < height; row++) {
            StringBuilder line = new StringBuilder();
            for (int i = 0; i < widths.length; i++) {
                String cell = row < wrapped.get(i).size() ? wrapped.get(i).get(row) : "";
                line.append(i == 0 ? "" : " ".repeat(GAP))
                        .append(Columns.pad(cell, widths[i], columns.get(i).right()));
            }
            out.append(line.toString().stripTrailing()).append('\n');
        }
    }
}
