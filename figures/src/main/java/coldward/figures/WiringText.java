package coldward.figures;

import coldward.figures.WiringPicture.Pin;
import coldward.model.wiring.ContactId;
import coldward.model.wiring.Part;
import coldward.model.wiring.Use;
import coldward.model.wiring.Wire;
import coldward.model.wiring.WiredFan;
import coldward.model.wiring.Wiring;
import coldward.quantity.Checks;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** The wiring for a terminal: contact by contact what is joined to it, then the findings in words. */
final class WiringText {

    private final WiringPicture picture;
    private final Wiring wiring;
    private final TextOptions options;
    private final StringBuilder out = new StringBuilder();

    WiringText(WiringPicture picture, TextOptions options) {
        this.picture = picture;
        this.wiring = picture.wiring();
        this.options = options;
    }

    String lines() {
        folded(picture.printer() + ": " + picture.verdict(), "");
        out.append('\n');
        for (var board : wiring.boards()) {
            folded(
                    board.name()
                            + " (board: "
                            + String.join(
                                    ", ",
                                    board.rails().stream()
                                            .map(r -> Checks.number(r.voltage()) + " V")
                                            .toList())
                            + ")",
                    "    ");
            wiring.contacts().stream()
                    .filter(c -> c.owner().equals(board.name()))
                    .forEach(this::contact);
        }
        for (Part part : wiring.parts()) {
            folded("%s (%s: %s)%s".formatted(part.name(), part.words(), Wires.value(part), symbol(part)), "    ");
            part.contacts().forEach(this::contact);
        }
        folded(
                "fan (%s, %s V, third wire: %s)"
                        .formatted(
                                wiring.fan().leads().word(),
                                Checks.number(wiring.fan().ratedVoltage()),
                                wiring.fan().third().word()),
                "    ");
        wiring.contacts().stream().filter(c -> c.owner().equals(WiredFan.OWNER)).forEach(this::contact);
        List<String> names = Wires.names(wiring);
        if (!names.isEmpty()) {
            out.append('\n');
            line("Names of contacts");
            names.forEach(n -> folded("  " + n, "    "));
        }
        findings();
        return out.toString();
    }

    private String symbol(Part part) {
        if (!(part instanceof Part.SeriesDiode)) {
            return "";
        }
        return options.ascii() ? "  anode -->|- cathode, the band" : "  anode ─▷├─ cathode, the band";
    }

    private void contact(ContactId contact) {
        List<Wire> wires = wiring.wiresAt(contact);
        boolean board = wiring.board(contact.owner()).isPresent();
        boolean supply =
                wiring.uses(contact).stream().allMatch(u -> u instanceof Use.OnRail || u instanceof Use.Ground);
        if (wires.isEmpty() && board && supply) {
            return;
        }
        String use = board
                ? "  "
                        + String.join(
                                " and ",
                                wiring.uses(contact).stream().map(Use::words).toList())
                : "";
        String pins = pins(contact.toString());
        String head = "  %-8s%-8s".formatted(contact.number(), use.strip()).stripTrailing() + pins;
        if (wires.isEmpty()) {
            folded(head + "  not connected", "        ");
            return;
        }
        for (Wire wire : wires) {
            ContactId other = wire.from().equals(contact) ? wire.to() : wire.from();
            folded(
                    "%-20s %s %s, %s, %s %s %s%s"
                            .formatted(
                                    head,
                                    options.ascii() ? "--" : "──",
                                    Wires.colour(wire),
                                    Wires.gauge(wire),
                                    Wires.length(wire),
                                    options.ascii() ? "--" : "──",
                                    other,
                                    pins(wire.name())),
                    "        ");
        }
    }

    private String pins(String at) {
        List<String> numbers = new ArrayList<>();
        for (int i = 0; i < picture.pins().size(); i++) {
            if (picture.pins().get(i).at().equals(at)) {
                numbers.add("[" + (i + 1) + "]");
            }
        }
        return numbers.isEmpty() ? "" : " " + String.join("", numbers);
    }

    private void findings() {
        int number = 1;
        for (Pin pin : picture.pins()) {
            out.append('\n');
            String head = "[%d] %s %s at %s: %s"
                    .formatted(
                            number++,
                            Wires.word(pin.severity()).toUpperCase(Locale.ROOT),
                            pin.code(),
                            pin.at(),
                            pin.headline());
            if (options.colour()) {
                out.append(
                        switch (pin.severity()) {
                            case ERROR -> "\u001b[31m";
                            case WARNING -> "\u001b[33m";
                            case NOTE -> "\u001b[2m";
                        });
            }
            folded(head, "    ");
            if (options.colour()) {
                out.append("\u001b[0m");
            }
            folded("    " + pin.text(), "    ");
        }
        out.append('\n');
        line("CAUTION");
        picture.cautions().forEach(c -> folded("  " + c, "  "));
    }

    private void line(String text) {
        out.append(Columns.clean(text, options.ascii())).append('\n');
    }

    private void folded(String text, String indent) {
        String clean = Columns.clean(text, options.ascii());
        if (Columns.width(clean) <= options.width()) {
            out.append(clean).append('\n');
            return;
        }
        String lead = clean.substring(0, clean.length() - clean.stripLeading().length());
        boolean first = true;
        for (String each : Columns.wrap(clean, options.width() - indent.length())) {
            out.append(first ? lead.isEmpty() || each.startsWith(lead) ? "" : lead : indent)
                    .append(each)
                    .append('\n');
            first = false;
        }
    }
}
