package org.splicebook.rules;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.problem.Problem;
import org.splicebook.problem.Result;
import org.splicebook.record.House;

class LocalPackTest {
    private static final String TOWN = """
            title: The town of Alder
            over: 2023
            rules:
              tamper-resistant: {off: yes, reason: "not adopted, ordinance 12"}
              arc-fault-by-room:
                values: {places: {without: [kitchen, laundry]}, amperes: ["15"]}
                reason: kitchens are let off here
              hidden-box: {severity: danger, article: "town code 7", cure: Open it., reason: fires in 2019}
            """;

    private static final House SAMPLE = HouseFiles.read(Path.of("sample-house")).get();

    @Test
    void aRuleThatIsSwitchedOffFindsNothingAndIsTold() {
        Pack pack = town(2023);
        assertThat(Checks.of(SAMPLE, Packs.us(2023))).anyMatch(f -> f.rule().equals("tamper-resistant"));
        assertThat(Checks.of(SAMPLE, pack)).noneMatch(f -> f.rule().equals("tamper-resistant"));
        assertThat(pack.changes())
                .contains(new Pack.Changed("tamper-resistant", "switched off", "not adopted, ordinance 12"));
    }

    @Test
    void anAlteredListOfPlacesIsGoneByAndTheRestOfTheRuleStays() {
        RuleText before = Packs.us(2023).rules().get("arc-fault-by-room");
        RuleText after = town(2023).rules().get("arc-fault-by-room");
        assertThat(after.list("places")).doesNotContain("kitchen", "laundry").contains("bedroom");
        assertThat(after.list("places")).hasSize(before.list("places").size() - 2);
        assertThat(after.list("amperes")).containsExactly("15");
        assertThat(after.cure()).isEqualTo(before.cure());
        assertThat(town(2023).changes())
                .contains(new Pack.Changed(
                        "arc-fault-by-room",
                        "amperes without 10, 20; places without kitchen, laundry",
                        "kitchens are let off here"));
    }

    @Test
    void whatIsFoundByAnAlteredRuleSaysSo() {
        Finding hidden = Checks.of(SAMPLE, town(2023)).stream()
                .filter(f -> f.rule().equals("hidden-box"))
                .findFirst()
                .orElseThrow();
        assertThat(hidden.severity()).isEqualTo(Severity.DANGER);
        assertThat(hidden.article()).isEqualTo("town code 7");
        assertThat(hidden.mark()).isEmpty();
        assertThat(hidden.cure()).isEqualTo("Open it.");
        assertThat(hidden.local()).isEqualTo("The town of Alder: fires in 2019");
    }

    @Test
    void whatLocalRulesDoNotNameIsFoundAsBefore() {
        List<String> named = List.of("tamper-resistant", "arc-fault-by-room", "hidden-box");
        assertThat(without(named, town(2023))).isEqualTo(without(named, Packs.us(2023)));
    }

    @Test
    void aRuleOfALaterEditionIsBroughtInByName() {
        String local = "title: T\nrules: {surge-protection: {on: yes, reason: asked for here already}}\n";
        assertThat(Packs.us(2017).rules()).doesNotContainKey("surge-protection");
        assertThat(LocalPack.parse("l.yaml", local)
                        .get()
                        .on(Packs.us(2017))
                        .get()
                        .rules())
                .containsKey("surge-protection");
    }

    @Test
    void aChangeToARuleThatTheEditionDoesNotHaveIsAProblem() {
        String local = "title: T\nrules:\n  surge-protection: {severity: fault, reason: asked for}\n";
        Result<Pack> pack = LocalPack.parse("l.yaml", local).get().on(Packs.us(2017));
        assertThat(said(pack.problems()))
                .containsExactly(
                        "l.yaml:3:3: The pack US code, 2017 has no rule surge-protection. Say on: yes to bring it in,"
                                + " or leave it out.");
    }

    @Test
    void allThatIsWrongIsToldAtOnceWithItsPlaceAndWhatWouldBeRight() {
        String local = """
                title: T
                colour: red
                over: 2019
                rules:
                  hiden-box: {off: yes, reason: r}
                  tamper-resistant: {off: yes}
                  switched-neutral: {off: yes, severity: advice, reason: r}
                  voltage-drop: {values: {share: three}, reason: r}
                  arc-fault-by-room: {values: {place: [kitchen]}, reason: r}
                  garage-circuit: {reason: r}
                  near-water: {values: {judged-by-place: {with: [kitchn]}}, reason: r}
                  too-many-throws: {values: {most: ["6", "7"]}, reason: r}
                  hidden-box: {severity: awful, reason: r}
                """;
        assertThat(said(LocalPack.parse("l.yaml", local).problems()))
                .satisfiesExactlyInAnyOrder(
                        p -> assertThat(p).startsWith("l.yaml:2:1: The key \"colour\" is not known here."),
                        p -> assertThat(p).startsWith("l.yaml:3:7: There is no pack \"2019\". There are"),
                        p -> assertThat(p)
                                .startsWith("l.yaml:5:3: There is no rule \"hiden-box\". Nearest are hidden-box"),
                        p -> assertThat(p).startsWith("l.yaml:6:21: The key reason is missing"),
                        p -> assertThat(p).startsWith("l.yaml:7:22: It is switched off and altered as well."),
                        p -> assertThat(p).startsWith("l.yaml:8:34: \"three\" is not a number. share is a number"),
                        p -> assertThat(p)
                                .startsWith(
                                        "l.yaml:9:32: The rule arc-fault-by-room goes by no value \"place\". Nearest")
                                .contains("places"),
                        p -> assertThat(p).startsWith("l.yaml:10:3: Nothing is changed of garage-circuit."),
                        p -> assertThat(p)
                                .startsWith("l.yaml:11:50: \"kitchn\" does not fit judged-by-place of near-water.")
                                .contains("kitchen"),
                        p -> assertThat(p).startsWith("l.yaml:12:36: 2 values stand here."),
                        p -> assertThat(p)
                                .startsWith("l.yaml:13:26: \"awful\" does not fit here. One of these: danger"));
    }

    @Test
    void aPackOfTheProgramThatIsWrongIsToldTheSameWay() {
        String pack = """
                title: P
                rules:
                  hidden-box: {title: T, severity: bad, cure: C}
                  hiden-box: {title: T, severity: fault, cure: C, mark: X}
                  box-set-back: {severity: fault, cure: C, since: long ago}
                """;
        assertThat(said(PackReader.parse("p.yaml", pack).problems())).hasSize(5).allMatch(p -> p.startsWith("p.yaml:"));
    }

    private static Pack town(int edition) {
        return LocalPack.parse("town.yaml", TOWN).get().on(Packs.us(edition)).get();
    }

    private static List<Finding> without(List<String> rules, Pack pack) {
        return Checks.of(SAMPLE, pack).stream()
                .filter(f -> !rules.contains(f.rule()))
                .toList();
    }

    private static List<String> said(List<Problem> problems) {
        return problems.stream().map(Problem::said).toList();
    }
}
