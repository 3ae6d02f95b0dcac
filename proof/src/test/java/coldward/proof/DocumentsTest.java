package coldward.proof;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.fail;

import coldward.app.Main;
import coldward.app.terminal.Terminal;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import picocli.CommandLine;

/** What the documents say is so: every example is a command line, every command and every key is described. */
class DocumentsTest {

    private static final Path ROOT = Repository.root();
    private static final Pattern FENCE = Pattern.compile("(?ms)^```(\\w*)\\n(.*?)^```");
    private static final Pattern LINK = Pattern.compile("\\]\\(([^)#:]+)(#[^)]*)?\\)");
    private static final String GENERATED = "<!-- From here on made from the schemas; a test compares. -->\n";

    private static CommandLine tree() {
        StringWriter nowhere = new StringWriter();
        return Main.commands(
                new Terminal(new PrintWriter(nowhere, true), new PrintWriter(nowhere, true), 100, false, true, false));
    }

    /** Every command by its words, without the program's own name. */
    private static Map<String, CommandLine> commands() {
        Map<String, CommandLine> all = new TreeMap<>();
        collect("", tree(), all);
        return all;
    }

    private static void collect(String prefix, CommandLine line, Map<String, CommandLine> all) {
        line.getSubcommands().forEach((name, sub) -> {
            all.put(prefix + name, sub);
            collect(prefix + name + " ", sub, all);
        });
    }

    static List<Path> pages() throws IOException {
        try (Stream<Path> docs = Files.walk(ROOT.resolve("docs"))) {
            return Stream.concat(
                            Stream.of("README.md", "CONTRIBUTING.md", "CHANGELOG.md")
                                    .map(ROOT::resolve),
                            docs.filter(p -> p.toString().endsWith(".md")).sorted())
                    .toList();
        }
    }

    /** The command lines among the lines of a text: continued lines joined, comments and output left out. */
    private static List<String> examples(String text) {
        List<String> found = new ArrayList<>();
        for (String line : text.replaceAll("\\\\\\n\\s*", "").lines().toList()) {
            String bare = line.strip().replaceFirst("^\\./", "");
            if (bare.startsWith("coldward ") || bare.equals("coldward")) {
                found.add(bare);
            }
        }
        return found;
    }

    /** A line into words as a shell does: quotes, a comment's end, a redirection's end. */
    private static String[] words(String line) {
        List<String> words = new ArrayList<>();
        Matcher word = Pattern.compile("\"([^\"]*)\"|'([^']*)'|(\\S+)").matcher(line.replaceFirst("\\s+\\(.*\\)$", ""));
        while (word.find()) {
            String bare = word.group(3);
            if (bare != null && (bare.startsWith("#") || bare.equals(">") || bare.equals("|") || bare.equals("&"))) {
                break;
            }
            words.add(bare != null ? bare : word.group(1) != null ? word.group(1) : word.group(2));
        }
        return words.subList(1, words.size()).toArray(String[]::new);
    }

    private static void assertParses(String example) {
        try {
            tree().parseArgs(words(example));
        } catch (CommandLine.ParameterException e) {
            fail("'%s' is no command line: %s", example, e.getMessage());
        }
    }

    @ParameterizedTest
    @MethodSource("pages")
    void everyExampleOnAPageIsACommandLine(Path page) {
        Matcher fences = FENCE.matcher(Repository.text(page));
        while (fences.find()) {
            if (fences.group(1).equals("sh")) {
                examples(fences.group(2)).forEach(DocumentsTest::assertParses);
            }
        }
    }

    @Test
    void everyCommandHasAnExampleInItsHelp() {
        commands().forEach((name, line) -> {
            String footer =
                    String.join("\n", line.getCommandSpec().usageMessage().footer());
            List<String> examples = examples(footer);
            assertThat(examples).as("examples of %s", name).isNotEmpty();
            examples.forEach(DocumentsTest::assertParses);
            assertThat(line.getUsageMessage()).as("help of %s", name).contains("Usage: coldward " + name);
        });
    }

    @ParameterizedTest
    @MethodSource("pages")
    void everyLinkLeadsSomewhere(Path page) {
        Matcher links = LINK.matcher(Repository.text(page));
        while (links.find()) {
            Path folder = page.getParent();
            assertThat(folder == null ? ROOT : folder.resolve(links.group(1)))
                    .as("link in %s", page)
                    .exists();
        }
    }

    /** docs/commands.md has a heading for every command, an example under it, and names every option. */
    @Test
    void everyCommandIsDescribed() {
        Map<String, String> sections = new TreeMap<>();
        for (String section : Repository.text(ROOT.resolve("docs/commands.md")).split("(?m)^## coldward ", -1)) {
            int end = section.indexOf('\n');
            sections.put(section.substring(0, end).strip(), section.substring(end));
        }
        sections.remove("# Commands");
        Map<String, CommandLine> commands = new TreeMap<>(commands());
        // those that only lead to others
        commands.keySet().removeAll(List.of("sheet", "measure", "journal", "notice", "history"));
        assertThat(sections.keySet()).isEqualTo(commands.keySet());
        commands.forEach((name, line) -> {
            String section = sections.getOrDefault(name, "");
            assertThat(examples(section))
                    .as("examples of %s", name)
                    .anySatisfy(e -> assertThat(e).startsWith("coldward " + name));
            line.getCommandSpec().options().stream()
                    .map(CommandLine.Model.OptionSpec::longestName)
                    .filter(o -> !o.equals("--help") && !o.equals("--version"))
                    .forEach(option ->
                            assertThat(section).as("options of %s", name).contains("`" + option));
        });
    }

    /** docs/outputs.md is what the schemas say. */
    @Test
    void everyKeyIsDescribed() throws IOException {
        String page = Repository.text(ROOT.resolve("docs/outputs.md"));
        assertThat(page).contains(GENERATED);
        String head = page.substring(0, page.indexOf(GENERATED) + GENERATED.length());
        String wanted = head + OutputsPage.text();
        Path made = Files.writeString(
                Files.createDirectories(ROOT.resolve("proof/target")).resolve("outputs.md"), wanted);
        assertThat(page.equals(wanted))
                .as("docs/outputs.md is what the schemas say; what it should be is in %s", made)
                .isTrue();
    }

    /** docs/rig.md names everything that can be asked of the rig. */
    @Test
    void everythingTheRigAnswersIsDescribed() {
        String page = Repository.text(ROOT.resolve("docs/rig.md"));
        for (String failure : coldward.rig.Failure.WORDS) {
            assertThat(page).contains("`" + failure + "`", "fail/");
        }
        for (var action : coldward.model.build.Action.values()) {
            assertThat(page).contains("/do/" + action.word());
        }
    }
}
