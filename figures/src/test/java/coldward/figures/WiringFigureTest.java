package coldward.figures;

import static org.assertj.core.api.Assertions.assertThat;

import coldward.figures.Mark.Place;
import java.io.StringReader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.xml.sax.InputSource;

class WiringFigureTest {

    private static List<String> texts(Drawing drawing) {
        return drawing.marks().stream()
                .filter(Mark.Words.class::isInstance)
                .map(m -> ((Mark.Words) m).text())
                .toList();
    }

    @ParameterizedTest
    @EnumSource(Format.class)
    void everythingAPersonWithASolderingIronNeedsIsThere(Format format) throws Exception {
        WiringPicture picture = WiringPictures.usual();
        Drawing drawing = WiringFigure.drawing(picture, format);
        String all = String.join(" ", texts(drawing));
        assertThat(all)
                .contains("3 tach", "1 fan +", "2 fan \u2212", "band", "third", "red", "yellow", "blue")
                .contains("ERROR", "W104", "WARNING", "NOTE", "CAUTION", "Disconnect the supply", "fire")
                .contains(
                        "FAN 0 on the board", "K4-3 in the drawing", "fan_b in the settings", "not settled by a test");
        assertThat(drawing.description()).contains("Wire plus from main.1 to fan.plus, red as found");
        for (Theme theme : Theme.values()) {
            String svg = WiringFigure.svg(picture, format, theme);
            DocumentBuilderFactory.newInstance().newDocumentBuilder().parse(new InputSource(new StringReader(svg)));
            if (!System.getProperty("coldward.figures.out", "").isEmpty()) {
                Files.writeString(
                        Path.of(System.getProperty("coldward.figures.out"), "wiring-" + format + "-" + theme + ".svg"),
                        svg);
            }
        }
    }

    /** IEC 60617 symbol for a diode: the band (bar) is at the cathode; here the cathode is at the fan's side. */
    @ParameterizedTest
    @EnumSource(Format.class)
    void theBandIsOnTheCathodesSide(Format format) {
        Drawing drawing = WiringFigure.drawing(WiringPictures.usual(), format);
        Mark.Area triangle = drawing.marks().stream()
                .filter(m -> m.name().equals("diode"))
                .map(Mark.Area.class::cast)
                .findFirst()
                .orElseThrow();
        Mark.Line band = drawing.marks().stream()
                .filter(m -> m.name().equals("diode-band"))
                .map(Mark.Line.class::cast)
                .findFirst()
                .orElseThrow();
        double middle =
                triangle.places().stream().mapToDouble(Place::x).average().orElseThrow();
        assertThat(band.places()).allSatisfy(p -> assertThat(p.x()).isGreaterThan(middle));
    }

    @ParameterizedTest
    @EnumSource(Format.class)
    void blocksNeverOverlapAndNoTwoWiresLieOnOneAnother(Format format) {
        for (int seed = 0; seed < 60; seed++) {
            WiringPicture picture = WiringPictures.random(new Random(seed));
            WiringPlan plan = new WiringPlan(picture.wiring(), format, 10, format == Format.WIDE ? 1200 : 360, 60);
            List<WiringPlan.Item> blocks = new ArrayList<>(plan.blocks().values());
            for (WiringPlan.Item a : blocks) {
                for (WiringPlan.Item b : blocks) {
                    if (a != b && a.layer == b.layer) {
                        assertThat(a.y + plan.height(a) <= b.y || b.y + plan.height(b) <= a.y)
                                .as("seed %d: %s and %s", seed, a.owner, b.owner)
                                .isTrue();
                    }
                }
            }
            assertThat(plan.routes()).hasSameSizeAs(picture.wiring().wires());
            uprightTracksAreApart(plan, seed);
            for (Mark mark : WiringFigure.drawing(picture, format).marks()) {
                if (mark instanceof Mark.Line line) {
                    assertThat(line.places()).allSatisfy(p -> {
                        assertThat(Double.isFinite(p.x()) && Double.isFinite(p.y()))
                                .isTrue();
                        assertThat(p.x()).isGreaterThanOrEqualTo(0);
                    });
                }
            }
        }
    }

    private static void uprightTracksAreApart(WiringPlan plan, int seed) {
        List<double[]> uprights = new ArrayList<>();
        for (WiringPlan.Route route : plan.routes()) {
            for (int i = 1; i < route.places().size(); i++) {
                Place a = route.places().get(i - 1);
                Place b = route.places().get(i);
                if (a.x() == b.x() && Math.abs(a.y() - b.y()) > 1) {
                    uprights.add(new double[] {a.x(), Math.min(a.y(), b.y()), Math.max(a.y(), b.y())});
                }
            }
        }
        for (int i = 0; i < uprights.size(); i++) {
            for (int j = 0; j < i; j++) {
                double[] a = uprights.get(i);
                double[] b = uprights.get(j);
                assertThat(Math.abs(a[0] - b[0]) > 1 || a[2] <= b[1] || b[2] <= a[1])
                        .as("seed %d: two wires share an upright track", seed)
                        .isTrue();
            }
        }
    }

    @Test
    void theTerminalHasTheSameFacts() {
        String text = WiringFigure.text(WiringPictures.usual(), new TextOptions(100, true, false));
        assertThat(text.lines()).allSatisfy(l -> assertThat(l.length()).isLessThanOrEqualTo(100));
        assertThat(text)
                .contains(
                        "red, 24 AWG, 0.8 m", "colour not noted", "[1] ERROR W104 at main.tach", "anode -->|- cathode")
                .contains("CAUTION", "Disconnect the supply before touching wiring.")
                .doesNotContain("\u001b");
        assertThat(text.chars().allMatch(c -> c < 127)).isTrue();
        assertThat(WiringFigure.text(WiringPictures.usual(), new TextOptions(100, false, true)))
                .contains("\u001b[31m");
        for (int seed = 0; seed < 25; seed++) {
            String random =
                    WiringFigure.text(WiringPictures.random(new Random(seed)), new TextOptions(60, false, false));
            assertThat(random.lines()).allSatisfy(l -> assertThat(l.length()).isLessThanOrEqualTo(60));
        }
    }
}
