package coldward.app.terminal;

import me.tongfei.progressbar.ProgressBarConsumer;

/** Writes the bar on one line of standard error, and only where a person is at the terminal. */
public final class ProgressLine implements ProgressBarConsumer {

    private final Terminal terminal;

    public ProgressLine(Terminal terminal) {
        this.terminal = terminal;
    }

    @Override
    public int getMaxRenderedLength() {
        return terminal.width() - 1;
    }

    @Override
    public void accept(String line) {
        if (terminal.interactive()) {
            terminal.err().print("\r" + line);
            terminal.err().flush();
        }
    }

    @Override
    public void clear() {
        if (terminal.interactive()) {
            terminal.err().print("\r" + " ".repeat(getMaxRenderedLength()) + "\r");
            terminal.err().flush();
        }
    }

    @Override
    public void close() {
        // standard error stays open for the rest of the command
    }
}
