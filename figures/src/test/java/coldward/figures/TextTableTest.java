package coldward.figures;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import coldward.figures.TextTable.Column;
import coldward.quantity.InputError;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

class TextTableTest {

    @Test
    void alignsNumbersAndWrapsTheLastColumn() {
        TextTable table = new TextTable(
                List.of(Column.words("printer"), Column.numbers("margin, s"), Column.words("limit")),
                List.of(
                        List.of("finch", "-12", "the neck lets too much heat through for the air there is"),
                        List.of("heron", "35.1", "none")));
        assertThat(table.text(new TextOptions(42, true, false))).isEqualTo("""
                        printer  margin, s  limit
                        -------  ---------  ----------------------
                        finch          -12  the neck lets too much
                                            heat through for the
                                            air there is
                        heron         35.1  none
                        """);
    }

    @Test
    void keepsToItsWidthWhateverItHolds() {
        Random random = new Random(3);
        for (int i = 0; i < 500; i++) {
            int count = 1 + random.nextInt(6);
            List<Column> columns = new ArrayList<>();
            for (int c = 0; c < count; c++) {
                columns.add(new Column("column " + c, random.nextBoolean()));
            }
            List<List<String>> rows = new ArrayList<>();
            for (int r = random.nextInt(6); r > 0; r--) {
                List<String> row = new ArrayList<>();
                for (int c = 0; c < count; c++) {
                    row.add(
                            random.nextInt(5) == 0
                                    ? ""
                                    : "wéren 冷 ".repeat(random.nextInt(9)) + "x".repeat(random.nextInt(30)));
                }
                rows.add(row);
            }
            int width = 40 + random.nextInt(100);
            String text = new TextTable(columns, rows).text(new TextOptions(width, false, false));
            assertThat(text.lines().mapToInt(Columns::width).max().orElseThrow())
                    .as(text)
                    .isLessThanOrEqualTo(width);
            assertThat(text.lines().count()).isGreaterThanOrEqualTo(2 + rows.size());
        }
    }

    @Test
    void refusesRowsThatDoNotFit() {
        assertThatThrownBy(() -> new TextTable(List.of(Column.words("a")), List.of(List.of("1", "2"))))
                .isInstanceOf(InputError.class)
                .hasMessageContaining("2 cells");
        assertThatThrownBy(() -> new TextTable(List.of(), List.of())).isInstanceOf(InputError.class);
    }
}
