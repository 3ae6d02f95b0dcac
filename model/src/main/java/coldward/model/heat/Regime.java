package coldward.model.heat;

/** What the machine was doing when its fan failed. */
public enum Regime {
    /** Hot and feeding as on the sheet. */
    PRINTING("printing"),
    /** Hot with a standing filament: the worst case, since nothing carries heat back down. */
    HOT_IDLE("hot-idle");

    private final String word;

    Regime(String word) {
        this.word = word;
    }

    /** The word in outputs. */
    public String word() {
        return word;
    }
}
