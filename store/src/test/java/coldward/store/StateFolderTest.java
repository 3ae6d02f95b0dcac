package coldward.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatCode;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import coldward.quantity.CannotRun;
import java.io.BufferedReader;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class StateFolderTest {

    @Test
    void makesTheFolderAndSignsTheLock(@TempDir Path temporary) throws Exception {
        Path state = temporary.resolve("deep/state");
        try (StateFolder folder = StateFolder.open(state)) {
            assertThat(folder.path()).isEqualTo(state.toRealPath());
            assertThat(Files.readString(state.resolve("lock")))
                    .startsWith("pid " + ProcessHandle.current().pid() + "\nsince 20");
        }
    }

    @Test
    void asecondOpenerInThisProcessIsRefusedAndTheLockStays(@TempDir Path state) throws Exception {
        try (StateFolder first = StateFolder.open(state)) {
            assertThatThrownBy(() -> StateFolder.open(state.resolve("../" + state.getFileName())))
                    .isInstanceOf(CannotRun.class)
                    .hasMessageContaining("held by this process (pid "
                            + ProcessHandle.current().pid() + ")");
            // POSIX would have dropped the lock if the refused one had opened and closed the file
            assertThat(asChild(first.path())).contains("is held by process");
        }
        assertThatCode(() -> StateFolder.open(state).close()).doesNotThrowAnyException();
    }

    @Test
    void asecondProcessIsToldWhoHoldsIt(@TempDir Path state) throws Exception {
        try (StateFolder folder = StateFolder.open(state)) {
            assertThat(asChild(folder.path()))
                    .startsWith("The state folder ")
                    .contains("is held by process " + ProcessHandle.current().pid() + ", started 20")
                    .contains("one watch per shop");
        }
        assertThat(asChild(state)).isEqualTo("held");
    }

    @Test
    void theLockGoesWithAKilledProcess(@TempDir Path state) throws Exception {
        Process child = Children.start("", Children.Holding.class, state);
        BufferedReader lines = child.inputReader(StandardCharsets.UTF_8);
        assertThat(lines.readLine()).isEqualTo("held");
        assertThatThrownBy(() -> StateFolder.open(state))
                .isInstanceOf(CannotRun.class)
                .hasMessageContaining("held by process " + child.pid());

        child.destroyForcibly();
        assertThat(child.waitFor(10, TimeUnit.SECONDS)).isTrue();

        assertThatCode(() -> StateFolder.open(state).close()).doesNotThrowAnyException();
    }

    @Test
    void afileInItsPlaceIsNamed(@TempDir Path temporary) throws Exception {
        Path file = Files.writeString(temporary.resolve("state"), "something else");
        assertThatThrownBy(() -> StateFolder.open(file))
                .isInstanceOf(CannotRun.class)
                .hasMessageContaining("is there already and is not a folder");
        assertThatThrownBy(() -> StateFolder.open(file.resolve("below"))).isInstanceOf(CannotRun.class);
        assertThat(Files.readString(file)).isEqualTo("something else");
    }

    @Test
    void aplaceThatCannotBeWrittenToIsNamed() {
        // the kernel's own file system takes no folders, not even from root
        assertThatThrownBy(() -> StateFolder.open(Path.of("/proc/coldward-state")))
                .isInstanceOf(CannotRun.class)
                .hasMessageContaining("/proc/coldward-state cannot be made")
                .hasMessageContaining("Name a folder");
    }

    /** What another process says when it tries. */
    private static String asChild(Path state) throws Exception {
        Process child = Children.start("", Children.Holding.class, state);
        child.getOutputStream().close();
        try (BufferedReader lines =
                new BufferedReader(new InputStreamReader(child.getInputStream(), StandardCharsets.UTF_8))) {
            String line = lines.readLine();
            assertThat(child.waitFor(10, TimeUnit.SECONDS)).isTrue();
            return String.valueOf(line);
        }
    }
}
