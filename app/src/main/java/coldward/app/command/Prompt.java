package coldward.app.command;

import coldward.app.terminal.Terminal;
import coldward.quantity.CannotRun;
import java.io.BufferedReader;
import java.io.Console;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.util.Optional;

/** Asks a person at the terminal. */
final class Prompt {

    private Prompt() {}

    /** Waits for Enter. */
    @SuppressWarnings("SystemConsoleNull") // the default console of JDK 25 is null where no person is
    static void enter(Terminal terminal, String wish) {
        Console console = System.console();
        if (console == null) {
            throw new CannotRun("nobody to ask: " + wish);
        }
        // on standard error: the result may be read by a program
        terminal.err().print(wish + " ");
        terminal.err().flush();
        if (console.readLine() == null) {
            throw new CannotRun("no answer: " + wish);
        }
    }

    /** One answer, not empty. */
    @SuppressWarnings("SystemConsoleNull") // the default console of JDK 25 is null where no person is
    static String ask(Terminal terminal, String question) {
        Console console = System.console();
        if (console == null) {
            throw new CannotRun("nobody to ask: " + question);
        }
        while (true) {
            terminal.out().print(question + ": ");
            terminal.out().flush();
            String answer = console.readLine();
            if (answer == null) {
                throw new CannotRun("no answer: " + question);
            }
            if (!answer.isBlank()) {
                return answer.strip();
            }
        }
    }

    /** Answers one after another; each may be left empty. From the person at the terminal, else from standard input. */
    static Answers answers(Terminal terminal) {
        return new Answers(terminal, System.in);
    }

    /** A run of answers. Closing it leaves standard input open. */
    static final class Answers implements AutoCloseable {

        private final Terminal terminal;
        private final BufferedReader lines;
        private boolean ended;

        Answers(Terminal terminal, InputStream in) {
            this.terminal = terminal;
            this.lines = new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8));
        }

        /** One answer; empty if it was left out or there are no more. */
        Optional<String> ask(String question) {
            terminal.out().print(question + ": ");
            terminal.out().flush();
            try {
                String answer = lines.readLine();
                if (answer == null) {
                    ended = true;
                    terminal.line();
                    return Optional.empty();
                }
                if (!terminal.interactive()) {
                    // nobody's typing shows: the line would go on behind the question
                    terminal.line(answer.strip());
                }
                return answer.isBlank() ? Optional.empty() : Optional.of(answer.strip());
            } catch (IOException e) {
                throw new CannotRun("cannot read the answer: " + e.getMessage(), e);
            }
        }

        /** No more answers will come. */
        boolean ended() {
            return ended;
        }

        @Override
        public void close() {
            // standard input is the process's own
        }
    }
}
