package coldward.quantity;

/** What a quantity measures. The example is what an error message shows. */
public enum Dimension {
    LENGTH("m", "2.1 mm"),
    TEMPERATURE("K", "25 degC"),
    TEMPERATURE_STEP("K", "3 K"),
    TIME("s", "0.5 s"),
    SPEED_OF_TURN("rpm", "8000 rpm"),
    AIR_FLOW("m^3/s", "1.7 l/s"),
    FEED("m^3/s", "5 mm^3/s"),
    PRESSURE("Pa", "35 Pa"),
    POWER("W", "50 W"),
    CONDUCTANCE("W/K", "0.34 W/K"),
    HEAT_CAPACITY("J/K", "12 J/K"),
    CONDUCTIVITY("W/(m K)", "0.18 W/(m K)"),
    HEAT_TRANSFER("W/(m^2 K)", "5000 W/(m^2 K)"),
    DENSITY("kg/m^3", "1240 kg/m^3"),
    SPECIFIC_HEAT("J/(kg K)", "1300 J/(kg K)"),
    VOLTAGE("V", "24 V"),
    CURRENT("A", "80 mA"),
    RESISTANCE("ohm", "15 kohm"),
    CAPACITANCE("F", "10 nF"),
    FREQUENCY("Hz", "500 Hz"),
    SHARE("", "10 %"),
    RATE("1/year", "1 per year");

    private final String baseUnit;
    private final String example;

    Dimension(String baseUnit, String example) {
        this.baseUnit = baseUnit;
        this.example = example;
    }

    /** The unit in which values of this dimension are held: SI, but rpm for turning and 1/year for rare events. */
    public String baseUnit() {
        return baseUnit;
    }

    /** A value as one would write it in a sheet. */
    public String example() {
        return example;
    }
}
