package coldward.app.command;

import coldward.app.terminal.Terminal;
import coldward.quantity.CannotRun;
import java.io.Console;

/** Asks a person at the terminal. */
final class Prompt {

    private Prompt() {}

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
