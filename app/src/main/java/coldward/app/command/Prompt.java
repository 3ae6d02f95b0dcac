package coldward.app.command;

import coldward.app.terminal.Terminal;
import coldward.quantity.CannotRun;
import java.io.Console;

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
}
