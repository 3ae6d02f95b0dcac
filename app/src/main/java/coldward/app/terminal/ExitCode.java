package coldward.app.terminal;

/** What a command's end means; documented in docs/commands.md. */
public enum ExitCode {
    DONE(0),
    NOT_SAFE(1),
    USAGE(2),
    BAD_INPUT(3),
    COULD_NOT_RUN(4);

    private final int number;

    ExitCode(int number) {
        this.number = number;
    }

    /** The process's exit status. */
    public int number() {
        return number;
    }
}
