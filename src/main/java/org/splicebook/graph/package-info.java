/**
 * The store in Neo4j, embedded or on a server: revisions, their projection into a graph, and the questions asked of it.
 *
 * <p>May import {@code store}, {@code people}, {@code rules}, {@code answer}, {@code wiring}, {@code record} and {@code problem}. The only package that knows Neo4j.
 *
 * <h2>The graph, for writing questions</h2>
 *
 * <p>Words of enumerations are stored in lower case with hyphens: sureness {@code must}, {@code shown}, {@code may}; basis {@code assumed},
 * {@code labelled}, {@code tested}, {@code seen}; conductor {@code hot}, {@code neutral}, {@code ground}; loss modes {@code off-by-hand},
 * {@code joint-lost}, ...; crossing kinds {@code borrowed}, ... Kinds of cables and devices are the words of the house file. A property
 * that is not known is absent. Every relationship lies within one house.
 *
 * <p><b>Keys.</b> Every node of a house has the label {@code Part} and the properties {@code house} (the house's id), {@code name} (unique
 * within its label and house) and {@code key} = house id, {@code "/"}, name; {@code key} is unique and indexed per label. Seek by it:
 * {@code MATCH (b:Breaker {key: $house + '/' + $breaker})}; all of a label: {@code WHERE b.key STARTS WITH $house + '/'}.
 * {@code Part.house}, {@code Thing.key}, {@code Crossing.kind}, {@code Finding.rule} and {@code Finding.severity} are indexed too. A house that was deleted has no nodes here.
 *
 * <h3>Nodes: what is recorded</h3>
 *
 * <p>Those marked * also have the label {@code Thing} (what ways pass and what can be lost) and are named as {@link
 * org.splicebook.wiring.ThingKind} says. {@code basis}, {@code since}, {@code before}, {@code permit} and {@code note} may stand on House,
 * Place, Source, Panel, Main, Breaker, Cable, Box, Device and Joint; basis always does there, defaults resolved.
 *
 * <pre>
 * House      key = its id. title (what people call it), revision, stored (date and time), sources (how many), built, areaM2, country, edition,
 *            derivation (stamp of derivation, graph and rules), checkedBy (the pack that its findings are of), draft (true for a draft: leave these out unless asked for)
 * Place      title, kind (kitchen, ...), finished, level
 * Source *   kind, system, amperes, bond (panel with the main bond), from
 * Panel      place, spaces, amperes, bonded, breakersComplete, landingsComplete
 * Main *     name = the panel's. type (breaker, fuse), poles, amperes, protects (list), position, panel
 * Breaker *  main.2+4. panel, space (2+4), type, poles, amperes, protects (list: ground-fault, arc-fault), position (on, off, tripped),
 *            label, commonTrip, opensNeutral, passed (as a Device's)
 * Pole *     main.2. panel, breaker (name), space; also main.main-1, a pole of the main, and service.l1, a pole of a source (source)
 * Bus *, Bar *, Lug *   main.a, main.n, main.line-1. panel; a Bar has function (neutral, ground)
 * Cable *    kind, shorthand, metres, ends (list of two: box or panel, "?" or "a|b" where one of several), open (an end is not known)
 * Wire *     K1.black. cable, colour, size, material, metal; and derived: uses (strongest first, such as "hot main.6 shown",
 *            "neutral must"), known (whether any use is), hot, neutral, ground (strongest sureness of that use, absent where none)
 * Box        place, material, volumeIn3, cableEntries, hidden, cablesComplete, jointsComplete, opened (some joint of it is recorded)
 * Device *   kind, title, family (receptacle, switch, ...), box, place, amperes, load, watts, label, protects (list),
 *            passed (if protective: the day its test button last worked; empty text where never, or where it failed after that)
 * LoadPoint  bench-1.top. device, box, place, kind, family, load, watts; and derived: supply (once, twice, either, ring, short, none)
 * Joint *    bench:K1.black. box, by, hold (device, tail, splice; absent where unsaid), capped (true for one wire alone, else absent)
 * Metal *    name = the box's or panel's
 * </pre>
 *
 * <h3>Nodes: what joins houses</h3>
 *
 * <p>Their {@code key} is the property's id, slash, name; they name houses and their things by key, and so hold whether these are stored
 * or not: {@code MATCH (u:Unit {property: $property}) MATCH (h:House {key: u.house})}. All but Property are {@code OF} it.
 *
 * <pre>
 * Property   key = its id. title, newest (its revision), linksComplete
 * Building   title
 * Unit       a unit or a common part: title, role (unit, common), house, building, type, level; -[:IN]-&gt;(Building)
 * FeedLink   from, point, pointKey (the LoadPoint's), to, source, sourceKey (the Source's), basis
 * Meter      number, counts (the part that pays), in, source, sourceKey (the Source's), basis
 * </pre>
 *
 * <h3>Relationships: what is recorded</h3>
 *
 * <pre>
 * (Place|Source|Panel)-[:OF]-&gt;(House)
 * (Panel|Box)-[:AT]-&gt;(Place)                          what lies in a box says its place itself
 * (Main|Breaker|Bus|Bar|Lug)-[:IN]-&gt;(Panel)         (Pole)-[:PART_OF]-&gt;(Breaker|Main|Source)
 * (Device|Joint|Metal)-[:IN]-&gt;(Box or Panel)          (LoadPoint)-[:ON]-&gt;(Device)
 * (Wire)-[:PART_OF]-&gt;(Cable)                          its ends are where the cable's are
 * (Cable)-[:ENDS_IN {end}]-&gt;(Box or Panel)           (Cable)-[:MAY_END_IN {end}]-&gt;(Box or Panel)
 * (Cable)-[:PASSES]-&gt;(Box or Panel)                  uncut
 * (Wire)-[:TOUCHES {end}]-&gt;(Joint)                    end: 1 or 2, as in K1.black@1
 * (Device|Panel)-[:TOUCHES {terminal}]-&gt;(Joint)       of a panel: a breaker's neutral terminal
 * (Pole|Bar|Lug|Metal|Source)-[:TOUCHES]-&gt;(Joint)
 * (Panel)-[:SUPPLIED_BY]-&gt;(Source|Cable)
 * (Breaker)-[:OPENS_WITH {why}]-&gt;(Breaker)           by hand; both directions are there; why: tie, pull-out
 * </pre>
 *
 * <h3>Relationships: what is derived</h3>
 *
 * <p>Ways are kept on the relationship, hop by hop from the load point to the source, all of one length: {@code hopNames} and {@code
 * hopBoxes} (empty text where none) as lists, {@code hopKinds} and {@code hopBases} as a text with a letter for each hop; with {@code basis}
 * (the weakest) and {@code throughUnknown}. Kinds: s source, m main, b breaker, p pole, u bus, n bar, l lug, c cable, w wire, e wire end,
 * j joint, d device, t terminal, x metal. Bases: the first letter. They are absent where no hop of the way is known.
 *
 * <pre>
 * (LoadPoint)-[:FED_BY {breaker, terminal, sourcePoles, sureness, basis, throughUnknown, hop...}]-&gt;(Pole)
 * (LoadPoint)-[:RETURNS_OVER {over: neutral|ground, terminal, sureness, basis, throughUnknown, hop...}]-&gt;(Bar)
 * (LoadPoint)-[:GROUNDED_OVER {terminal, sureness, basis, throughUnknown, hop...}]-&gt;(Bar)
 * (LoadPoint)-[:RELIES_ON {conductor, sureness, basis}]-&gt;(Breaker|Main|Pole|Device)   of all else IF_LOST tells who relies on it
 * (LoadPoint)-[:PROTECTED_BY {function, sureness, nearness, basis}]-&gt;(Breaker|Main|Device)
 *            function overcurrent with nearness 0 is its breaker
 * (Wire)-[:HOT_OF {sureness}]-&gt;(Pole)
 * (Wire)-[:JOINED_IN]-&gt;(Island)                      (Island)-[:LANDS_ON]-&gt;(Joint)
 * (Island)-[:CARRIES]-&gt;(Pole)                        whose returns it carries
 * (LoadPoint)-[:RETURNS_ON]-&gt;(Island)
 * (Crossing)-[:CONCERNS]-&gt;(Pole|LoadPoint)           (Crossing)-[:ON_ISLAND]-&gt;(Island)
 * (Crossing)-[:PARTS_AT]-&gt;(Box or Panel)             (Crossing)-[:ACROSS]-&gt;(Device|Breaker)
 * (Thing)-[:IF_LOST {mode, end}]-&gt;(Loss)             end: of a wire end, 1 or 2      (Loss)-[:CHANGES {hot, neutral, ground, sureness}]-&gt;(LoadPoint)
 *            hot: kept, impaired, one-of-two, lost-live-through-load, lost; neutral: kept, impaired, over-ground, lost;
 *            ground: kept, impaired, lost
 * (OpenRegion)-[:OPEN_AT]-&gt;(Box or Panel)            (OpenRegion)-[:MAY_JOIN]-&gt;(Breaker|LoadPoint|Cable)
 * </pre>
 *
 * <h3>Nodes: what is derived</h3>
 *
 * <pre>
 * Island      name = the first of its landings. poles, loadPoints (how many)
 * Crossing    name = crossing-1, ... kind, sureness, island, poles (list), loadPoints (list), box, device
 * Loss        one for all things and modes that change the same load points in the same way; name = a digest. lost (how many lose their hot)
 * OpenRegion  name = its id. boxes, breakers, loadPoints (how many)
 * Finding     name = its key: rule, slash, what it is about. rule, title, severity (danger, fault, advice), certainty (found, possible,
 *             asked), subject, said, place, breaker, basis, article, hazard, whenBuilt (not-allowed, allowed, unknown, not-judged),
 *             newWork, accepted (looked at and let stand), concerns (load points, boxes and panels, by name). The cure is the rule's
 * </pre>
 *
 * <h3>What is kept beside the graph</h3>
 *
 * <p>Questions need not look here. {@code (Ledger {house, newest, deleted})-[:HAS]->(Revision {key, house, number, name, stored, who, why,
 * deleted, digest, record})}: the record of every revision, compressed. {@code (Ledger)-[:SAW]->(Sighting {key, house, id, date, digest,
 * text, order})}: the sightings that were appended. {@code (Ledger)-[:PLANS]->(Draft {key, house, name, status, base, done, withdrawn,
 * version, stored, who, text, digest})}: the drafts, as files of moves.
 * {@code (Property)-[:HAS]->(PropertyRevision {key, property, number, name, stored, who, why, digest, record})}. {@code (Schema {name, version})}.
 * People stand by themselves: {@code User}, {@code Token}, {@code Invitation}, {@code SignedIn} (hashes, no secrets) and the log, {@code Audit}.
 */
@NullMarked
package org.splicebook.graph;

import org.jspecify.annotations.NullMarked;
