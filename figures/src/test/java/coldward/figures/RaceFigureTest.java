package coldward.figures;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.fail;
import static org.assertj.core.api.Assertions.within;

import coldward.figures.Mark.Place;
import coldward.figures.Mark.Words;
import coldward.model.heat.Deadline;
import coldward.model.trip.Margin;
import coldward.model.trip.StopTimeBudget;
import java.io.StringReader;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;

class RaceFigureTest {

    private static final int RANDOM_PICTURES = 400;

    @Test
    void isWellFormedWhateverItShows() throws Exception {
        for (RacePicture picture : pictures(30)) {
            for (Format format : Format.values()) {
                for (Theme theme : Theme.values()) {
                    Element root = parse(RaceFigure.svg(picture, format, theme)).getDocumentElement();
                    assertThat(root.getAttribute("role")).isEqualTo("img");
                    assertThat(root.getAttribute("viewBox"))
                            .startsWith("0 0 " + (format == Format.WIDE ? "1200" : "360") + " ");
                    for (String id : root.getAttribute("aria-labelledby").split(" ", -1)) {
                        assertThat(byId(root, id).getTextContent()).isNotBlank();
                    }
                }
            }
        }
    }

    @Test
    void keepsEveryTextAsItWasGiven() throws Exception {
        RacePicture given = Pictures.cases().getOrDefault("bare", Pictures.random(1));
        RacePicture hostile = new RacePicture(
                "<script>alert(1)</script>",
                "P&A",
                "printing",
                105,
                List.of(RacePicture.Series.of("]]> \"a\" 'b'", true, new double[] {0, 5}, new double[] {20, 30})),
                "one\u0000two \u20ac",
                given.stop(),
                given.deadline(),
                given.margin());
        Document document = parse(RaceFigure.svg(hostile, Format.WIDE, Theme.AUTO));
        assertThat(document.getElementsByTagName("script").getLength()).isZero();
        assertThat(texts(document)).contains("<script>alert(1)</script>", "]]> \"a\" 'b'", "one\ufffdtwo \u20ac");
    }

    @Test
    void noLabelCoversAnotherAndNoneLeavesTheDrawing() {
        int labels = 0;
        for (RacePicture picture : pictures(RANDOM_PICTURES)) {
            for (Format format : Format.values()) {
                Drawing drawing = RaceFigure.drawing(picture, format);
                List<Words> words = new ArrayList<>();
                for (Mark mark : drawing.marks()) {
                    if (mark instanceof Words one) {
                        words.add(one);
                    }
                }
                for (int i = 0; i < words.size(); i++) {
                    Mark.Box box = words.get(i).box();
                    if (box.left() < 0 || box.right() > drawing.width() || box.bottom() > drawing.height()) {
                        fail("%s leaves the %s drawing", words.get(i), format);
                    }
                    for (int j = 0; j < i; j++) {
                        if (box.touches(words.get(j).box())) {
                            fail("%s covers %s (%s)", words.get(i), words.get(j), format);
                        }
                    }
                    labels++;
                }
            }
        }
        assertThat(labels).isGreaterThan(10_000);
    }

    @Test
    void placesAreStraightMapsOfTheNumbers() {
        // axis: twice the race of 40 s is 80 s, over 104..930 units; temperature 20 to 80 degC with 6 K of room
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
        Drawing drawing = RaceFigure.drawing(picture, Format.WIDE);
        assertThat(line(drawing, "post").getFirst().x()).isCloseTo(104 + 826 * 40 / 80.0, within(1e-9));
        assertThat(line(drawing, "post-line").getFirst().x()).isCloseTo(517, within(1e-9));
        assertThat(line(drawing, "stop-line").getFirst().x()).isCloseTo(104 + 826 * 10 / 80.0, within(1e-9));
        assertThat(line(drawing, "span")).extracting(Place::x).containsExactly(207.25, 517.0);
        double[] ends = {0, 1, 3, 6, 7, 10};
        List<List<Place>> segments = areas(drawing, "segment");
        assertThat(segments).hasSize(5);
        for (int i = 0; i < 5; i++) {
            assertThat(segments.get(i).get(0).x()).isCloseTo(104 + 826 * ends[i] / 80, within(1e-9));
            assertThat(segments.get(i).get(1).x()).isCloseTo(104 + 826 * ends[i + 1] / 80, within(1e-9));
        }
        // 14 degC at the axis, 86 at its top: 72 K over 360 units, 5 units to the kelvin
        List<Place> curve = line(drawing, "curve");
        List<Place> axis = line(drawing, "axis");
        double bottom = axis.getFirst().y();
        assertThat(curve.getFirst().x()).isEqualTo(104);
        assertThat(curve.getLast().x()).isEqualTo(930);
        assertThat(bottom - curve.getFirst().y()).isCloseTo((20 - 14) * 5, within(1e-9));
        assertThat(bottom - curve.getLast().y()).isCloseTo((80 - 14) * 5, within(1e-9));
        assertThat(bottom - line(drawing, "level").getFirst().y()).isCloseTo((60 - 14) * 5, within(1e-9));
    }

    @Test
    void writesTheMarginLarge() throws Exception {
        Map<String, String> words = Map.of(
                "spare", "35 s to spare",
                "late", "too late by 13 s",
                "never", "nothing saves it",
                "always", "no limit",
                "unread", "nothing saves it",
                "always-low", "no margin");
        for (Map.Entry<String, RacePicture> one : Pictures.cases().entrySet()) {
            String expected = words.get(one.getKey());
            if (expected != null) {
                assertThat(texts(parse(RaceFigure.svg(one.getValue(), Format.NARROW, Theme.LIGHT))))
                        .as(one.getKey())
                        .contains(expected);
                assertThat(RaceFigure.text(one.getValue(), new TextOptions(80, false, false)))
                        .contains(expected);
            }
        }
    }

    @Test
    void curvesDifferWithoutColour() {
        Drawing drawing = RaceFigure.drawing(Pictures.cases().getOrDefault("spare", Pictures.random(1)), Format.WIDE);
        List<List<Integer>> dashes = drawing.marks().stream()
                .filter(mark -> mark.name().equals("curve"))
                .map(mark -> ((Mark.Line) mark).stroke().dash())
                .toList();
        assertThat(dashes).hasSize(5).doesNotHaveDuplicates();
        assertThat(dashes.getLast()).as("the chosen one is solid and on top").isEmpty();
    }

    @Test
    void themesDifferInColourOnly() {
        RacePicture picture = Pictures.cases().getOrDefault("late", Pictures.random(1));
        String light = RaceFigure.svg(picture, Format.WIDE, Theme.LIGHT);
        String dark = RaceFigure.svg(picture, Format.WIDE, Theme.DARK);
        assertThat(light.replaceAll("#[0-9a-f]{6}", "#").replace("cw-light", ""))
                .isEqualTo(dark.replaceAll("#[0-9a-f]{6}", "#").replace("cw-dark", ""));
        assertThat(light).doesNotContain("<style>").isNotEqualTo(dark);
        assertThat(RaceFigure.svg(picture, Format.WIDE, Theme.AUTO))
                .contains("@media screen and (prefers-color-scheme:dark)")
                .contains(Tone.DANGER.on(Theme.LIGHT), Tone.DANGER.on(Theme.DARK));
        assertThat(light).isEqualTo(RaceFigure.svg(picture, Format.WIDE, Theme.LIGHT));
    }

    @Test
    void lettersContrastWithTheirGround() {
        // W3C WCAG 2.2, 1.4.3: 4.5 to 1 for text; relative luminance after its definition
        for (Theme theme : List.of(Theme.LIGHT, Theme.DARK)) {
            for (Tone tone : List.of(Tone.INK, Tone.FAINT, Tone.DANGER, Tone.NORMAL)) {
                assertThat(contrast(tone.on(theme), Tone.GROUND.on(theme)))
                        .as("%s on %s", tone, theme)
                        .isGreaterThanOrEqualTo(4.5);
            }
            assertThat(contrast(Tone.WARM.on(theme), Tone.GROUND.on(theme))).isGreaterThanOrEqualTo(3.9);
        }
    }

    private static double contrast(String one, String other) {
        double a = luminance(one);
        double b = luminance(other);
        return (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
    }

    private static double luminance(String colour) {
        double[] weights = {0.2126, 0.7152, 0.0722};
        double sum = 0;
        for (int i = 0; i < 3; i++) {
            double c = Integer.parseInt(colour.substring(1 + 2 * i, 3 + 2 * i), 16) / 255.0;
            sum += weights[i] * (c <= 0.04045 ? c / 12.92 : Math.pow((c + 0.055) / 1.055, 2.4));
        }
        return sum;
    }

    private static List<RacePicture> pictures(int random) {
        List<RacePicture> pictures = new ArrayList<>(Pictures.cases().values());
        for (int seed = 0; seed < random; seed++) {
            pictures.add(Pictures.random(seed));
        }
        return pictures;
    }

    private static List<Place> line(Drawing drawing, String name) {
        return drawing.marks().stream()
                .filter(mark -> mark instanceof Mark.Line && mark.name().equals(name))
                .map(mark -> ((Mark.Line) mark).places())
                .findFirst()
                .orElseThrow();
    }

    private static List<List<Place>> areas(Drawing drawing, String name) {
        return drawing.marks().stream()
                .filter(mark -> mark instanceof Mark.Area && mark.name().equals(name))
                .map(mark -> ((Mark.Area) mark).places())
                .toList();
    }

    private static List<String> texts(Document document) {
        NodeList nodes = document.getElementsByTagName("text");
        List<String> texts = new ArrayList<>();
        for (int i = 0; i < nodes.getLength(); i++) {
            texts.add(nodes.item(i).getTextContent());
        }
        return texts;
    }

    private static Element byId(Element root, String id) {
        NodeList nodes = root.getElementsByTagName("*");
        for (int i = 0; i < nodes.getLength(); i++) {
            Element element = (Element) nodes.item(i);
            if (element.getAttribute("id").equals(id)) {
                return element;
            }
        }
        throw new AssertionError("no element has the id " + id);
    }

    private static Document parse(String svg) throws Exception {
        return DocumentBuilderFactory.newInstance().newDocumentBuilder().parse(new InputSource(new StringReader(svg)));
    }
}
