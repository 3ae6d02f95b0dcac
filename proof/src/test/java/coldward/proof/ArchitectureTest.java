package coldward.proof;

import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAPackage;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAnyPackage;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.base.DescribedPredicate;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.domain.JavaMethodCall;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.library.dependencies.SlicesRuleDefinition;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

/** The directions of knowledge, as written in CONTRIBUTING.md. */
class ArchitectureTest {

    private static final JavaClasses ALL = new ClassFileImporter()
            .withImportOption(new ImportOption.DoNotIncludeTests())
            .importPackages("coldward");

    /** What each module may know, besides itself. */
    private static final Map<String, Set<String>> KNOWS = Map.of(
            "quantity", Set.of(),
            "model", Set.of("quantity"),
            "sheet", Set.of("model", "quantity"),
            "figures", Set.of("model", "quantity"),
            "watch", Set.of("model", "quantity"),
            "links", Set.of("watch", "model", "quantity"),
            "store", Set.of("watch", "model", "quantity"),
            "rig", Set.of("watch", "model", "quantity"),
            "app", Set.of("sheet", "figures", "watch", "links", "store", "rig", "model", "quantity"));

    @Test
    void everyClassBelongsToAModule() {
        assertThat(ALL).isNotEmpty();
        for (JavaClass each : ALL) {
            assertThat(KNOWS).containsKey(module(each));
        }
    }

    @TestFactory
    List<DynamicTest> modulesKnowOnlyWhatIsBelowThem() {
        return KNOWS.entrySet().stream()
                .map(entry -> DynamicTest.dynamicTest(entry.getKey(), () -> {
                    String[] others = KNOWS.keySet().stream()
                            .filter(m -> !m.equals(entry.getKey())
                                    && !entry.getValue().contains(m))
                            .map(m -> "coldward." + m + "..")
                            .toArray(String[]::new);
                    if (others.length > 0) {
                        noClasses()
                                .that()
                                .resideInAPackage("coldward." + entry.getKey() + "..")
                                .should()
                                .dependOnClassesThat()
                                .resideInAnyPackage(others)
                                .check(ALL);
                    }
                }))
                .toList();
    }

    @Test
    void packagesHaveNoCycles() {
        SlicesRuleDefinition.slices()
                .matching("coldward.(**)")
                .should()
                .beFreeOfCycles()
                .check(ALL);
    }

    @Test
    void onlyTheApplicationReadsAClock() {
        DescribedPredicate<JavaMethodCall> clock = DescribedPredicate.describe("reads a clock or sleeps", call -> {
            String owner = call.getTargetOwner().getFullName();
            String name = call.getTarget().getName();
            boolean system =
                    owner.equals("java.lang.System") && (name.equals("nanoTime") || name.equals("currentTimeMillis"));
            boolean sleep = owner.equals("java.lang.Thread") && name.equals("sleep");
            boolean now = owner.startsWith("java.time.")
                    && name.equals("now")
                    && call.getTarget().getRawParameterTypes().isEmpty();
            return system || sleep || now;
        });
        noClasses()
                .that(DescribedPredicate.not(resideInAPackage("coldward.app..")))
                .should()
                .callMethodWhere(clock)
                .check(ALL);
    }

    @Test
    void onlySheetsKnowYaml() {
        noClasses()
                .that(DescribedPredicate.not(resideInAPackage("coldward.sheet..")))
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage("org.snakeyaml..", "com.networknt..")
                .check(ALL);
    }

    @Test
    void theModelReadsNoFileAndStartsNoThread() {
        classes()
                .that(resideInAnyPackage("coldward.model.."))
                .should()
                .onlyDependOnClassesThat(DescribedPredicate.not(resideInAnyPackage(
                        "java.io..", "java.nio..", "java.net..", "tools.jackson..", "java.util.concurrent..")))
                .check(ALL);
    }

    private static String module(JavaClass each) {
        String[] parts = each.getPackageName().split("\\.", -1);
        return parts.length > 1 ? parts[1] : "";
    }
}
