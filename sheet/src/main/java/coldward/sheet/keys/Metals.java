package coldward.sheet.keys;

import coldward.model.build.Material;
import coldward.model.build.Materials;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** The metals a sheet may name: the model's, and pure titanium, which the trade often confuses with the alloy. */
public final class Metals {

    /** Commercially pure titanium: about 16 W/(m K) (read in makers' notes), 4510 kg/m3, 520 J/(kg K) (from memory). */
    private static final Material PURE_TITANIUM = new Material("pure titanium", 16, 4510, 520);

    private Metals() {}

    /** The metal of this name, if known. */
    public static Optional<Material> named(String name) {
        return name.equals(PURE_TITANIUM.name()) ? Optional.of(PURE_TITANIUM) : Materials.named(name);
    }

    /** All names. */
    public static List<String> names() {
        List<String> names = new ArrayList<>(Materials.all().keySet());
        names.add(PURE_TITANIUM.name());
        return names;
    }
}
