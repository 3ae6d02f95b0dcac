package coldward.model;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;

/** Runs a script of the independent oracle through the system's Python; its lines are {@code name value}. */
public final class SciPyScript {

    private static final int NO_SCIPY = 3;

    private SciPyScript() {}

    /**
     * What the script says, by name.
     *
     * @param name file under {@code src/test/resources/oracle}
     * @param seconds within which it has to end
     * @param directory for what it writes
     */
    public static Map<String, Double> run(String name, int seconds, Path directory, Path... arguments)
            throws IOException, InterruptedException {
        Path script = Path.of(System.getProperty("basedir", "."))
                .resolve("src/test/resources/oracle")
                .resolve(name);
        String python = Files.isExecutable(Path.of("/usr/bin/python3")) ? "/usr/bin/python3" : "python3";
        List<String> command = new ArrayList<>(List.of(python, script.toString()));
        for (Path argument : arguments) {
            command.add(argument.toString());
        }
        Path out = directory.resolve("out");
        Path err = directory.resolve("err");
        Process process = new ProcessBuilder(command)
                .redirectOutput(out.toFile())
                .redirectError(err.toFile())
                .start();
        boolean ended = process.waitFor(seconds, TimeUnit.SECONDS);
        if (!ended) {
            process.destroyForcibly();
        }
        assertThat(ended).as("%s %s ends within %d s", python, script, seconds).isTrue();
        if (process.exitValue() == NO_SCIPY) {
            throw new AssertionError("SciPy is missing (Debian: python3-scipy); ./verify installs it. "
                    + Files.readString(err, StandardCharsets.UTF_8));
        }
        assertThat(process.exitValue())
                .as(Files.readString(err, StandardCharsets.UTF_8))
                .isZero();
        Map<String, Double> values = new LinkedHashMap<>();
        for (String line : Files.readAllLines(out)) {
            int at = line.lastIndexOf(' ');
            values.put(line.substring(0, at), Double.parseDouble(line.substring(at + 1)));
        }
        return values;
    }
}
