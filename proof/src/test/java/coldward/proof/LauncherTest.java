package coldward.proof;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The script that starts everything, as it is in the repository, in a folder of its own (with a space in its name) that
 * looks as if it had been built: finding a JDK, building when needed and only then, starting.
 */
class LauncherTest {

    private static final Map<String, String> THIS_JDK = Map.of("JAVA_HOME", System.getProperty("java.home"));

    @TempDir
    Path folder;

    private Path home = Path.of("");

    @BeforeEach
    void layOut() throws IOException {
        home = Files.createDirectories(folder.resolve("cold ward"));
        Files.createDirectories(home.resolve(".build"));
        Files.createDirectories(home.resolve("app/src/main"));
        Files.createDirectories(home.resolve("app/target/lib"));
        Files.copy(Repository.root().resolve("coldward"), home.resolve("coldward"));
        Files.copy(Repository.root().resolve(".build/jdk.sh"), home.resolve(".build/jdk.sh"));
        Files.writeString(home.resolve("app/src/main/Source.java"), "");
        Files.writeString(home.resolve("pom.xml"), "");
        script(home.resolve(".build/build.sh"), "echo built >>\"$1/builds\"; touch \"$1/app/target/built\"");
        Files.writeString(home.resolve("app/target/classpath"), ChildJvm.classPath());
        Instant before = Instant.now().minusSeconds(60);
        for (String source : List.of("pom.xml", "app/src/main/Source.java", "app/src/main")) {
            Files.setLastModifiedTime(home.resolve(source), FileTime.from(before));
        }
        Files.writeString(home.resolve("app/target/built"), "");
    }

    private static void script(Path file, String text) throws IOException {
        Files.writeString(file, "#!/bin/sh\n" + text + "\n");
        Files.setPosixFilePermissions(file, PosixFilePermissions.fromString("rwxr-xr-x"));
    }

    private record Ended(int code, String out, String err) {}

    private Ended run(Map<String, String> environment, Object... words) throws IOException, InterruptedException {
        List<String> command = new ArrayList<>();
        for (Object word : words) {
            command.add(word.toString());
        }
        Path out = Files.createTempFile(folder, "out", ".txt");
        Path err = Files.createTempFile(folder, "err", ".txt");
        ProcessBuilder builder = new ProcessBuilder(command)
                .directory(folder.toFile())
                .redirectOutput(out.toFile())
                .redirectError(err.toFile());
        builder.environment().remove("JAVA_HOME");
        builder.environment().putAll(environment);
        Process process = builder.start();
        assertThat(process.waitFor(ChildJvm.PATIENCE_SECONDS, TimeUnit.SECONDS)).isTrue();
        return new Ended(
                process.exitValue(),
                Files.readString(out, StandardCharsets.UTF_8),
                Files.readString(err, StandardCharsets.UTF_8));
    }

    private int builds() throws IOException {
        Path log = home.resolve("builds");
        return Files.exists(log) ? Files.readAllLines(log).size() : 0;
    }

    @Test
    void startsFromAnywhereAndHandsOnWordsAndExitCode() throws IOException, InterruptedException {
        Path link = Files.createSymbolicLink(folder.resolve("cw"), home.resolve("coldward"));
        Path sheet = Files.writeString(folder.resolve("my heron.yaml"), Repository.exampleSheet());
        Ended race = run(THIS_JDK, link, "race", sheet, "--json", "--draws", "0");
        assertThat(race.err()).isEmpty();
        assertThat(race.code()).isZero();
        OutputSchemas.assertFits("race", race.out());
        assertThat(run(THIS_JDK, home.resolve("coldward"), "rase").code()).isEqualTo(2);
        assertThat(builds()).isZero();
    }

    @Test
    void buildsOnceWhenASourceIsNewer() throws IOException, InterruptedException {
        Files.delete(home.resolve("app/target/built"));
        assertThat(run(THIS_JDK, home.resolve("coldward"), "--version").code()).isZero();
        assertThat(run(THIS_JDK, home.resolve("coldward"), "--version").code()).isZero();
        assertThat(builds()).isEqualTo(1);
        Files.setLastModifiedTime(
                home.resolve("app/target/built"), FileTime.from(Instant.now().minusSeconds(30)));
        Files.writeString(home.resolve("app/src/main/Source.java"), "changed");
        assertThat(run(THIS_JDK, home.resolve("coldward"), "--version").code()).isZero();
        assertThat(builds()).isEqualTo(2);
    }

    @Test
    void startsNothingAfterABuildThatFailed() throws IOException, InterruptedException {
        Files.delete(home.resolve("app/target/built"));
        script(home.resolve(".build/build.sh"), "echo 'the build failed' >&2; exit 1");
        Ended ended = run(THIS_JDK, home.resolve("coldward"), "--version");
        assertThat(ended.code()).isEqualTo(4);
        assertThat(ended.err()).contains("the build failed");
        assertThat(ended.out()).isEmpty();
    }

    /** A cache from another build is not worth a word; it must not stop the start either. */
    @Test
    void startsWithACacheThatIsNone() throws IOException, InterruptedException {
        Files.writeString(home.resolve("app/target/coldward.aot"), "no cache");
        Ended ended = run(THIS_JDK, home.resolve("coldward"), "--version");
        assertThat(ended.code()).isZero();
        assertThat(ended.err()).isEmpty();
        assertThat(ended.out()).startsWith("coldward ");
    }

    @Test
    void saysWhatToInstallWhereThereIsNoJdk() throws IOException, InterruptedException {
        Ended ended = run(withoutJdk(), home.resolve("coldward"), "--version");
        assertThat(ended.code()).isEqualTo(4);
        assertThat(ended.out()).isEmpty();
        assertThat(ended.err()).contains("JDK of version 25 or newer", "found none", "JAVA_HOME", "apt install");
    }

    @Test
    void passesOverAnOlderJdkAndOneWithoutACompiler() throws IOException, InterruptedException {
        jdk("jdks/old", "21.0.2", true);
        jdk("jdks/runtime", "25.0.1", false);
        Map<String, String> environment = new java.util.HashMap<>(withoutJdk());
        environment.put("JAVA_HOME", folder.resolve("jdks/old").toString());
        environment.put("COLDWARD_JDK_PLACES", folder + "/jdks/*");
        assertThat(run(environment, home.resolve("coldward"), "--version").code())
                .isEqualTo(4);
        Path found = jdk("jdks/right", "25.0.1", true);
        script(found.resolve("bin/java"), "echo \"started by $0\"");
        Ended ended = run(environment, home.resolve("coldward"), "--version");
        assertThat(ended.err()).isEmpty();
        assertThat(ended.out()).isEqualTo("started by " + found.resolve("bin/java") + "\n");
    }

    private Path jdk(String name, String version, boolean compiler) throws IOException {
        Path jdk = folder.resolve(name);
        Files.createDirectories(jdk.resolve("bin"));
        Files.writeString(jdk.resolve("release"), "IMPLEMENTOR=\"x\"\nJAVA_VERSION=\"" + version + "\"\n");
        if (compiler) {
            script(jdk.resolve("bin/javac"), "exit 0");
        }
        return jdk;
    }

    /** The tools that the script uses, and nothing else, on the path; no folder of JDKs to look into. */
    private Map<String, String> withoutJdk() throws IOException {
        Path tools = Files.createDirectories(folder.resolve("tools"));
        for (String tool :
                List.of("sh", "readlink", "dirname", "sed", "cat", "find", "head", "touch", "mkdir", "cut")) {
            Path link = tools.resolve(tool);
            if (!Files.exists(link)) {
                script(link, "exec " + tool(tool) + " \"$@\"");
            }
        }
        return Map.of(
                "PATH",
                tools.toString(),
                "HOME",
                Files.createDirectories(folder.resolve("nobody")).toString(),
                "JAVA_HOME",
                "/nowhere",
                "COLDWARD_JDK_PLACES",
                "");
    }

    private static Path tool(String name) {
        for (String place : List.of("/bin", "/usr/bin", "/usr/local/bin", "/opt/homebrew/bin")) {
            Path candidate = Path.of(place, name);
            if (Files.isExecutable(candidate)) {
                return candidate;
            }
        }
        throw new IllegalStateException("these tests need the usual tool " + name);
    }
}
