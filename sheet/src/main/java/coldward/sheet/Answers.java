package coldward.sheet;

/**
 * The five facts that make a sheet, as texts.
 *
 * @param printer its name
 * @param plastic PLA, PETG, ABS, ASA or PC
 * @param nozzle set temperature, for example {@code 235 degC}
 * @param neck class of the heat break, for example {@code thin titanium}
 * @param fan size class, for example {@code 40x10 axial}
 * @param ratedSpeed as printed on the fan or in its data sheet, for example {@code 8000 rpm}
 */
public record Answers(String printer, String plastic, String nozzle, String neck, String fan, String ratedSpeed) {}
