package org.splicebook;

import static com.tngtech.archunit.base.DescribedPredicate.alwaysTrue;
import static com.tngtech.archunit.base.DescribedPredicate.not;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAPackage;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAnyPackage;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;
import static java.util.Map.entry;
import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.base.DescribedPredicate;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Holds the shape of the program: which package may know which, and who may use which library. */
class ArchitectureTest {

    private static final String ROOT = "org.splicebook";
    private static final String EVERYTHING = "*";

    /** Package: the packages of ours that it may know. What is not listed here may not exist. */
    private static final Map<String, Set<String>> MAY_KNOW = Map.ofEntries(
            entry("problem", Set.of()),
            entry("record", Set.of("problem")),
            entry("housefile", Set.of("problem", "record")),
            entry("wiring", Set.of("problem", "record")),
            entry("loadflow", Set.of("problem", "record", "housefile", "wiring")),
            entry("answer", Set.of("problem", "record", "wiring")),
            entry("rules", Set.of("problem", "record", "housefile", "wiring", "loadflow", "answer")),
            entry("survey", Set.of("problem", "record", "wiring", "loadflow", "answer")),
            entry("rewire", Set.of("problem", "record", "housefile", "wiring", "loadflow", "rules", "answer")),
            entry(
                    "panelplan",
                    Set.of("problem", "record", "housefile", "wiring", "loadflow", "answer", "rules", "rewire")),
            entry("store", Set.of("problem", "record", "wiring", "answer")),
            entry("people", Set.of("problem", "record", "answer", "store")),
            entry("drafts", Set.of("problem", "record", "rewire", "store")),
            entry("upkeep", Set.of("problem", "record", "housefile", "store")),
            entry("visits", Set.of("problem", "record", "housefile", "answer", "store")),
            entry("spreadsheet", Set.of("problem", "record", "housefile")),
            entry("archive", Set.of("problem", "record", "housefile", "store", "visits")),
            entry(
                    "ask",
                    Set.of("problem", "record", "wiring", "loadflow", "rules", "survey", "answer", "store", "upkeep")),
            entry("property", Set.of("problem", "record", "wiring", "answer", "store", "housefile", "upkeep")),
            entry("graph", Set.of("problem", "record", "wiring", "rules", "answer", "store", "people", "upkeep")),
            entry(
                    "render",
                    Set.of("rewire", "loadflow", "panelplan", "rules", "problem", "record", "wiring", "answer")),
            entry(
                    "web",
                    Set.of(
                            "rewire",
                            "drafts",
                            "loadflow",
                            "panelplan",
                            "rules",
                            "problem",
                            "record",
                            "wiring",
                            "answer",
                            "store",
                            "property",
                            "people",
                            "upkeep",
                            "archive",
                            "spreadsheet",
                            "visits",
                            "render",
                            "housefile")),
            entry(
                    "cli",
                    Set.of(
                            "rewire",
                            "drafts",
                            "loadflow",
                            "panelplan",
                            "rules",
                            "problem",
                            "record",
                            "wiring",
                            "answer",
                            "store",
                            "survey",
                            "property",
                            "people",
                            "upkeep",
                            "archive",
                            "spreadsheet",
                            "visits",
                            "render",
                            "housefile")),
            entry("app", Set.of(EVERYTHING)));

    /** Library: the only package that may use it. */
    private static final Map<String, String> ONLY_USER = Map.of(
            "org.neo4j..", "graph",
            "io.javalin..", "web",
            "gg.jte..", "web",
            "picocli..", "cli",
            "org.snakeyaml..", "housefile",
            "com.password4j..", "people",
            "io.github.bucket4j..", "web",
            "io.micrometer..", "web");

    /** Packages that use the Java library, the nullness annotations, and nothing else from outside. */
    private static final List<String> PLAIN_JAVA = List.of("problem", "record");

    private static final int MOST_LINES = 400;
    private static final Path SOURCES = Path.of("src/main/java");

    private static final JavaClasses PROGRAM = new ClassFileImporter()
            .withImportOption(new ImportOption.DoNotIncludeTests())
            .importPackages(ROOT);

    @Test
    void everyPackageIsInTheTable() {
        assertThat(PROGRAM).isNotEmpty();
        assertThat(PROGRAM.stream()
                        .map(JavaClass::getPackageName)
                        .filter(name -> !name.equals(ROOT))
                        .map(name -> name.substring(ROOT.length() + 1).split("\\.")[0])
                        .distinct())
                .isSubsetOf(MAY_KNOW.keySet());
    }

    static Stream<String> packages() {
        return MAY_KNOW.keySet().stream().sorted();
    }

    @ParameterizedTest
    @MethodSource("packages")
    void packageKnowsOnlyWhatTheTableAllows(String name) {
        noClasses()
                .that(resideInAPackage(inside(name)))
                .should()
                .dependOnClassesThat(resideInAPackage(ROOT + "..").and(not(allowedFor(name))))
                .allowEmptyShould(true)
                .check(PROGRAM);
    }

    private static DescribedPredicate<JavaClass> allowedFor(String name) {
        Set<String> known = MAY_KNOW.get(name);
        if (known.contains(EVERYTHING)) {
            return alwaysTrue();
        }
        String[] allowed = Stream.concat(Stream.of(name), known.stream().sorted())
                .map(ArchitectureTest::inside)
                .toArray(String[]::new);
        return resideInAnyPackage(allowed);
    }

    @Test
    void packagesAreFreeOfCycles() {
        slices().matching(ROOT + ".(*)..")
                .should()
                .beFreeOfCycles()
                .allowEmptyShould(true)
                .check(PROGRAM);
    }

    static Stream<String> libraries() {
        return ONLY_USER.keySet().stream().sorted();
    }

    @ParameterizedTest
    @MethodSource("libraries")
    void libraryIsUsedByItsOnePackage(String library) {
        noClasses()
                .that(not(resideInAPackage(inside(ONLY_USER.get(library)))))
                .should()
                .dependOnClassesThat(resideInAPackage(library))
                .allowEmptyShould(true)
                .check(PROGRAM);
    }

    @Test
    void recordAndProblemArePlainJava() {
        String[] plain = PLAIN_JAVA.stream().map(ArchitectureTest::inside).toArray(String[]::new);
        classes()
                .that(resideInAnyPackage(plain))
                .should()
                .onlyDependOnClassesThat(
                        resideInAnyPackage(plain).or(resideInAnyPackage("java..", "org.jspecify.annotations..")))
                .allowEmptyShould(true)
                .check(PROGRAM);
    }

    @Test
    void sourceFilesAreShort() {
        assertThat(sources().filter(file -> lines(file).size() > MOST_LINES))
                .as("files of more than %d lines", MOST_LINES)
                .isEmpty();
    }

    @Test
    void everyPackageSaysItsPurposeAndIsNullMarked() {
        assertThat(sources()
                        .map(Path::getParent)
                        .distinct()
                        .map(folder -> folder.resolve("package-info.java"))
                        .filter(info -> !saysItsPurpose(info)))
                .as("package-info.java that is missing, has no sentence, or is not @NullMarked")
                .isEmpty();
    }

    private static boolean saysItsPurpose(Path info) {
        return Files.exists(info)
                && lines(info).contains("@NullMarked")
                && lines(info).get(0).startsWith("/**");
    }

    private static String inside(String name) {
        return ROOT + "." + name + "..";
    }

    private static Stream<Path> sources() {
        try (Stream<Path> files = Files.walk(SOURCES)) {
            return files.filter(file -> file.toString().endsWith(".java")).toList().stream();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static List<String> lines(Path file) {
        try {
            return Files.readAllLines(file);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
