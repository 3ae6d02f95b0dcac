package coldward.model.baseline;

/**
 * Correlation between neighbours.
 *
 * @param correlation r, 0 where nothing scatters
 * @param error its standard error
 */
record Lag(double correlation, double error) {

    static Lag of(double[] values, boolean[] kept) {
        double sum = 0;
        int count = 0;
        for (int i = 0; i < values.length; i++) {
            if (kept[i]) {
                sum += values[i];
                count++;
            }
        }
        double mean = sum / count;
        double squares = 0;
        double products = 0;
        int pairs = 0;
        for (int i = 0; i < values.length; i++) {
            if (kept[i]) {
                squares += (values[i] - mean) * (values[i] - mean);
                if (i > 0 && kept[i - 1]) {
                    products += (values[i] - mean) * (values[i - 1] - mean);
                    pairs++;
                }
            }
        }
        if (squares == 0 || pairs == 0) {
            return new Lag(0, 1);
        }
        // means over pairs and over values may differ a little where outliers are many
        double r = Math.clamp(products / pairs / (squares / count), -1, 1);
        return new Lag(r, Math.sqrt((1 - r * r) / pairs));
    }
}
