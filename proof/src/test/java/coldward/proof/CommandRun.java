package coldward.proof;

import coldward.app.Main;
import coldward.app.terminal.Terminal;
import java.io.PrintWriter;
import java.io.StringWriter;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * One command line, run in this process as a user's would be, without a person at the terminal.
 *
 * @param code exit code
 * @param out standard output
 * @param err standard error
 */
record CommandRun(int code, String out, String err) {

    private static final int WIDTH = 100;
    private static final JsonMapper JSON = JsonMapper.shared();

    /** Runs it to its end. */
    static CommandRun of(Object... words) {
        String[] arguments = new String[words.length];
        for (int i = 0; i < words.length; i++) {
            arguments[i] = words[i].toString();
        }
        StringWriter out = new StringWriter();
        StringWriter err = new StringWriter();
        Terminal terminal =
                new Terminal(new PrintWriter(out, true), new PrintWriter(err, true), WIDTH, false, true, false);
        int code = Main.run(terminal, arguments);
        terminal.out().flush();
        terminal.err().flush();
        return new CommandRun(code, out.toString(), err.toString());
    }

    /** Its output as JSON. */
    JsonNode json() {
        return JSON.readTree(out);
    }
}
