package coldward.app.terminal;

import me.tongfei.progressbar.ProgressBar;
import me.tongfei.progressbar.ProgressBarBuilder;
import me.tongfei.progressbar.ProgressBarConsumer;
import me.tongfei.progressbar.ProgressBarStyle;

/** Writes the bar on one line of standard error, and only where a person is at the terminal. */
public final class ProgressLine implements ProgressBarConsumer {

    private final Terminal terminal;

    private ProgressLine(Terminal terminal) {
        this.terminal = terminal;
    }

    /** A bar for a task of so many steps; gone from the screen when it is closed. */
    public static ProgressBar bar(String task, long steps, Terminal terminal) {
        return new ProgressBarBuilder()
                .setTaskName(task)
                .setInitialMax(steps)
                .setStyle(terminal.unicode() ? ProgressBarStyle.UNICODE_BLOCK : ProgressBarStyle.ASCII)
                .setConsumer(new ProgressLine(terminal))
                .clearDisplayOnFinish()
                .build();
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
