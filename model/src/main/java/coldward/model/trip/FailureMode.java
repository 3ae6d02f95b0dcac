package coldward.model.trip;

/** The ways in which a trip has to notice that the fan fails. */
public enum FailureMode {
    /** The supply is gone and the fan coasts to a stand. */
    STOP("stop", "the fan stops"),
    /** It turns at a fraction of its speed at once. */
    SLOW("slow", "the fan is slow at once"),
    /** It slows down linearly to a stand. */
    FADE("fade", "the fan fades"),
    /** Reports read zero with the fan fine. */
    SIGNAL_LOST("signal-lost", "the signal is lost");

    private final String word;
    private final String words;

    FailureMode(String word, String words) {
        this.word = word;
        this.words = words;
    }

    /** The word in outputs. */
    public String word() {
        return word;
    }

    /** As part of a sentence. */
    public String words() {
        return words;
    }

    /** True if the cold side warms in it: a lost signal leaves the fan as it is. */
    public boolean warms() {
        return this != SIGNAL_LOST;
    }
}
