package coldward.figures;

/** The few colours of a drawing: one ink in three strengths, states after IEC 60073, and warmth. */
enum Tone {
    GROUND("ground", "#fbfaf6", "#101214"),
    INK("ink", "#1b1d1f", "#eceae4"),
    FAINT("faint", "#5a5e62", "#a4a8ac"),
    HAIR("hair", "#dbd8cf", "#2c3034"),
    DANGER("danger", "#b3261e", "#ff7468"),
    ABNORMAL("abnormal", "#e3ac00", "#ffd24a"),
    NORMAL("normal", "#17703a", "#63d285"),
    WARM("warm", "#c8501e", "#ff8a4c");

    private final String word;
    private final String light;
    private final String dark;

    Tone(String word, String light, String dark) {
        this.word = word;
        this.light = light;
        this.dark = dark;
    }

    String word() {
        return word;
    }

    String on(Theme theme) {
        return theme == Theme.DARK ? dark : light;
    }
}
