package coldward.app.command;

import coldward.quantity.Dimension;
import coldward.quantity.InputError;
import coldward.quantity.Units;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;

/** Quantities typed as options; a bare number is taken in the unit that the option names. */
final class Arguments {

    private Arguments() {}

    /** The command's own line, for pointing at what is wrong with it. */
    static CommandLine line(@Nullable CommandSpec spec, Object command) {
        return spec == null ? new CommandLine(command) : spec.commandLine();
    }

    /** A turning speed, rpm. */
    static double rpm(CommandLine line, String option, String text) {
        return of(line, option, text, Dimension.SPEED_OF_TURN, "rpm");
    }

    /** A temperature, K; bare numbers are degrees Celsius. */
    static double temperature(CommandLine line, String option, String text) {
        return of(line, option, text, Dimension.TEMPERATURE, "degC");
    }

    /** A time, s; bare numbers are seconds. */
    static double time(CommandLine line, String option, String text) {
        return of(line, option, text, Dimension.TIME, "s");
    }

    /** A voltage, V. */
    static double volts(CommandLine line, String option, String text) {
        return of(line, option, text, Dimension.VOLTAGE, "V");
    }

    /** A frequency, Hz. */
    static double hertz(CommandLine line, String option, String text) {
        return of(line, option, text, Dimension.FREQUENCY, "Hz");
    }

    /** A share. */
    static double share(CommandLine line, String option, String text) {
        return of(line, option, text, Dimension.SHARE, "");
    }

    private static double of(CommandLine line, String option, String text, Dimension dimension, String unit) {
        try {
            return Units.parse(dimension, option, text.matches("[0-9.eE+-]+") ? (text + " " + unit).strip() : text);
        } catch (InputError e) {
            throw new ParameterException(line, e.getMessage(), e);
        }
    }
}
