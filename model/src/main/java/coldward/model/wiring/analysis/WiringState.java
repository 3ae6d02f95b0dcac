package coldward.model.wiring.analysis;

/**
 * What the circuit is doing.
 *
 * @param fan on or off by its port, starting, or half plugged in
 * @param low true if the tachometer stage pulls, false if it is open
 * @param corner of what varies
 */
public record WiringState(Fan fan, boolean low, Corner corner) {

    /** What the fan is doing. */
    public enum Fan {
        /** Port on, running current. */
        ON("fan on"),
        /** Port on, current of a standing rotor. */
        STARTING("fan starting"),
        /** Port off. */
        OFF("fan off"),
        /** Port on, the fan's minus not yet plugged. */
        NO_MINUS("plus and signal plugged, minus not");

        private final String words;

        Fan(String words) {
            this.words = words;
        }

        /** In words. */
        public String words() {
            return words;
        }
    }

    /** In words. */
    public String words() {
        return fan.words() + ", tachometer " + (low ? "low" : "open") + ", " + corner.words();
    }
}
