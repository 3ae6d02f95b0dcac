package coldward.figures;

import static org.assertj.core.api.Assertions.assertThat;

import coldward.figures.Mark.Words;
import coldward.model.build.Reading.Counter;
import coldward.model.build.Reading.Edge;
import coldward.model.build.Reading.PeriodTimer;
import coldward.model.build.Reading.Sampled;
import coldward.model.build.Reading.Tachometer;
import coldward.model.reading.Chopping;
import coldward.model.reading.Conditions;
import java.io.StringReader;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.xml.sax.InputSource;

class PulsesFigureTest {

    private static List<PulsesPicture> pictures() {
        Random random = new Random(8);
        List<PulsesPicture> pictures = new ArrayList<>();
        for (int i = 0; i < 120; i++) {
            Counter counter = switch (i % 3) {
                case 0 -> new Sampled(2e-4 + 4e-3 * random.nextDouble());
                case 1 -> new Edge(i % 2 == 0 ? 0 : 1e-4, i % 2 == 0 ? 0 : 3e-3);
                default -> new PeriodTimer(1e6);
            };
            Conditions conditions = i % 4 == 0
                    ? Conditions.PLAIN.withChopping(new Chopping(10 + 200 * random.nextDouble(), 0.6))
                    : Conditions.PLAIN;
            pictures.add(new PulsesPicture(
                    "heron",
                    new Tachometer(1 + i % 4, 0.2 + 0.6 * random.nextDouble(), counter, 1),
                    conditions,
                    i % 10 == 0 ? 0 : 15_000 * random.nextDouble(),
                    8000,
                    "One sentence."));
        }
        return pictures;
    }

    @Test
    void isWellFormedAndTheSameEveryTime() throws Exception {
        for (PulsesPicture picture : pictures().subList(0, 24)) {
            for (Theme theme : Theme.values()) {
                String svg = PulsesFigure.svg(picture, Format.WIDE, theme);
                assertThat(svg).isEqualTo(PulsesFigure.svg(picture, Format.WIDE, theme));
                var root = DocumentBuilderFactory.newInstance()
                        .newDocumentBuilder()
                        .parse(new InputSource(new StringReader(svg)))
                        .getDocumentElement();
                assertThat(root.getAttribute("role")).isEqualTo("img");
            }
        }
    }

    @Test
    void noWordLeavesTheDrawing() {
        for (PulsesPicture picture : pictures()) {
            for (Format format : Format.values()) {
                Drawing drawing = PulsesFigure.drawing(picture, format);
                for (Mark mark : drawing.marks()) {
                    if (mark instanceof Words words) {
                        assertThat(words.box().left()).as(words.toString()).isGreaterThanOrEqualTo(0);
                        assertThat(words.box().right()).as(words.toString()).isLessThanOrEqualTo(drawing.width());
                        assertThat(words.box().bottom()).as(words.toString()).isLessThanOrEqualTo(drawing.height());
                    }
                }
            }
        }
    }

    @Test
    void countsWhatTheLooksFind() {
        // 200 Hz looked at every 1 ms: every pulse counts; looked at every 5 ms: always the same place, none counts
        PulsesScene fine = PulsesScene.of(picture(1e-3));
        assertThat(fine.counted()).isEqualTo(fine.rises()).isGreaterThan(2);
        assertThat(PulsesScene.of(picture(5e-3)).counted()).isZero();
        assertThat(PulsesFigure.text(picture(1e-3), new TextOptions(80, true, false)))
                .contains("true 6000, shown 6000 rpm")
                .matches("[\\x00-\\x7f]*")
                .isEqualTo(PulsesFigure.text(picture(1e-3), new TextOptions(80, true, false)));
    }

    private static PulsesPicture picture(double every) {
        return new PulsesPicture(
                "heron", new Tachometer(2, 0.5, new Sampled(every), 1), Conditions.PLAIN, 6000, 8000, "A sentence.");
    }
}
