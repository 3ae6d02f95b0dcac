package coldward.figures;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.fail;

import coldward.model.heat.Deadline;
import coldward.model.trip.Margin;
import coldward.model.trip.StopTimeBudget;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

class RaceTextTest {

    @Test
    void keepsToItsWidth() {
        List<RacePicture> pictures = new ArrayList<>(Pictures.cases().values());
        for (int seed = 0; seed < 100; seed++) {
            pictures.add(Pictures.random(seed));
        }
        for (RacePicture picture : pictures) {
            for (int width : new int[] {40, 41, 64, 80, 100, 131, 400}) {
                for (boolean ascii : new boolean[] {false, true}) {
                    String text = RaceFigure.text(picture, new TextOptions(width, ascii, false));
                    for (String line : text.lines().toList()) {
                        if (Columns.width(line) > width || !line.equals(line.stripTrailing())) {
                            fail("too wide for %d or trailing spaces: '%s'", width, line);
                        }
                    }
                    assertThat(text).endsWith("\n").doesNotContain("\u001b");
                    if (ascii) {
                        assertThat(text.matches("[\n -~]*")).as(text).isTrue();
                    }
                }
            }
        }
    }

    @Test
    void barAndPostStandAtTheirColumns() {
        // width 88: 81 columns for 80 s, one column a second after the 7 of the axis
        RacePicture picture = new RacePicture(
                "heron",
                "PLA",
                "printing",
                60,
                List.of(RacePicture.Series.of("nothing done", true, new double[] {0, 80}, new double[] {20, 80})),
                "One sentence.",
                new RacePicture.Known(new StopTimeBudget(1, 2, 3, 1, 3)),
                Deadline.until(40),
                Optional.of(new Margin.Seconds(30)));
        List<String> lines = RaceFigure.text(picture, new TextOptions(88, true, false))
                .lines()
                .toList();
        assertThat(lines).contains(" ".repeat(7) + "/++===#\\\\\\" + " ".repeat(30) + "|");
        assertThat(lines).contains(" ".repeat(17) + "<" + "-".repeat(29) + ">");
        assertThat(lines).contains(" ".repeat(47) + "^ deadline 40 s");
        assertThat(lines).anyMatch(line -> line.strip().equals("(ok) 30 s to spare"));
        assertThat(lines).contains("A  nothing done, at most 80 degC at 80 s - chosen");
    }

    @Test
    void coloursTheMarginOnlyWhenAsked() {
        RacePicture late = Pictures.cases().getOrDefault("late", Pictures.random(1));
        String plain = RaceFigure.text(late, new TextOptions(80, false, false));
        String coloured = RaceFigure.text(late, new TextOptions(80, false, true));
        assertThat(coloured).contains("\u001b[1;31m\u25c6 too late by 13 s\u001b[0m");
        assertThat(coloured.replaceAll("\u001b\\[[0-9;]*m", "")).isEqualTo(plain);
    }

    @Test
    void aNameCannotSteerTheTerminal() {
        RacePicture given = Pictures.cases().getOrDefault("spare", Pictures.random(1));
        RacePicture hostile = new RacePicture(
                "heron\u001b[2J\u0007\nfinch",
                given.plastic(),
                given.state(),
                given.softensAt(),
                given.series(),
                given.verdict(),
                given.stop(),
                given.deadline(),
                given.margin());
        assertThat(RaceFigure.text(hostile, new TextOptions(80, false, false)))
                .startsWith("heron?[2J? finch ·")
                .doesNotContain("\u001b");
    }
}
