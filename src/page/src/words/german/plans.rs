//! Owns the long questions in German: ways out, floors, bad nights, how sure; and what is refused or fails on the way.

use crate::words::translate::Entry;

pub(super) static ENTRIES: &[Entry] = &[
    // Ways out.
    (
        "This kitchen carries {} at this mix ({} planned); beyond that {} gives first.",
        "Diese Küche trägt {} bei dieser Mischung ({} geplant); darüber gibt zuerst nach: {}.",
    ),
    ("This kitchen carries {} at this mix ({} planned).", "Diese Küche trägt {} bei dieser Mischung ({} geplant)."),
    (
        "No evening of this mix carries as it is fed and manned: {} gives.",
        "Kein Abend dieser Mischung trägt, so wie nachgelegt und besetzt ist; nach gibt: {}.",
    ),
    (
        "No evening of this mix carries as it is fed and manned.",
        "Kein Abend dieser Mischung trägt, so wie nachgelegt und besetzt ist.",
    ),
    ("Ways out are being looked for.", "Auswege werden gesucht."),
    ("What helps most: {}, {} more.", "Was am meisten hilft: {}, {} mehr."),
    ("None of the single changes tried carries more.", "Keine einzelne der versuchten Änderungen trägt mehr."),
    ("{} leaves the hearth", "{} kommt vom Herd"),
    ("Start at most {} of {} in a quarter hour", "Höchstens {} von {} in einer Viertelstunde beginnen"),
    ("The pans of {} go back in within a minute", "Die Pfannen von {} kommen binnen einer Minute wieder hinein"),
    ("Feed a fifth more often", "Ein Fünftel öfter nachlegen"),
    ("Feed a quarter less often", "Ein Viertel seltener nachlegen"),
    (
        "Seat at most {} in a quarter hour of this evening, the others later",
        "In einer Viertelstunde dieses Abends höchstens {} setzen, die anderen später",
    ),
    ("Light and feed as the fire plan says", "Anzünden und nachlegen, wie der Feuerplan sagt"),
    ("One more pair of hands", "Ein Paar Hände mehr"),
    ("Switch the burner on 45 min earlier", "Den Brenner 45 min früher einschalten"),
    ("Set the burner 20 K higher", "Den Brenner 20 K höher einstellen"),
    // Floors.
    ("{#} of {} floors are worked out so far.", "{} von {} Böden sind bisher ausgerechnet."),
    (
        "Preheat energy, idle energy rate, production capacity and cooking energy efficiency are meant as in the scopes of ASTM F1965 and F3216.",
        "Aufheizenergie, Leerlaufleistung, Leistung und Wirkungsgrad sind gemeint wie in ASTM F1965 und F3216.",
    ),
    (
        "They are worked out for this menu, not for the foods those standards bake, and by calculation, not by test.",
        "Sie sind für diese Karte ausgerechnet, nicht für die Speisen jener Normen, und durch Rechnung, nicht durch Prüfung.",
    ),
    (
        "Heat input is wood burnt at its net calorific value as received, and gas at its net one.",
        "Zugeführt ist verbranntes Holz mit seinem Heizwert, wie es ankommt, und Gas mit dem seinen.",
    ),
    (
        "Production capacity and efficiency are those of the busiest hour of the most covers the floor holds.",
        "Leistung und Wirkungsgrad sind die der vollsten Stunde bei den meisten Gedecken, die der Boden hält.",
    ),
    (
        "What goes up the hood is what leaves by the doorway, its worst quarter hour; the hood draws room air besides.",
        "Zur Haube geht, was aus dem Ofenmund kommt, in seiner schlimmsten Viertelstunde; die Haube zieht dazu noch Raumluft.",
    ),
    (
        "Nine nights in ten are tried at the laziest pace of service, and at four paces above it, up to twice as much where that burns clean; the first that holds counts.",
        "Neun Abende von zehn werden beim bequemsten Nachlegen versucht und bei vier schnelleren, bis zum Doppelten, wo das sauber brennt; das erste, das hält, zählt.",
    ),
    ("{} with gas assist", "{} mit Gas"),
    ("{} on wood alone", "{} mit Holz allein"),
    (
        "No floor on offer carries this evening, fed by the rule; on the largest, {} gives first.",
        "Kein angebotener Boden trägt diesen Abend nach der Regel; auf dem größten gibt zuerst nach: {}.",
    ),
    (
        "No floor on offer carries this evening, fed by the rule.",
        "Kein angebotener Boden trägt diesen Abend nach der Regel.",
    ),
    ("The smallest floor that carries this evening is {}.", "Der kleinste Boden, der diesen Abend trägt, ist {}."),
    (
        "Nine nights in ten are carried by {} ({} of {} nights held).",
        "Neun Abende von zehn trägt {} ({} von {} Abenden hielten).",
    ),
    ("None is sure to carry nine nights in ten.", "Keiner trägt sicher neun Abende von zehn."),
    ("With room to grow it is {}.", "Mit Platz zum Wachsen ist es {}."),
    (
        "Two of {} with half the covers each would do as well, for {} of wood a week in the place of {}.",
        "Zwei von {} mit je den halben Gedecken täten es auch, für {} Holz in der Woche statt {}.",
    ),
    ("Every floor is fed by the same rule.", "Jeder Boden wird nach derselben Regel beheizt."),
    (
        "It heats up at four fifths of the fastest pace that burns clean and keeps the flame in the oven, lit so that the floor stands two thirds up the menu's bands when the first piece goes in.",
        "Er heizt mit vier Fünfteln des schnellsten Nachlegens auf, das sauber brennt und die Flamme im Ofen hält, so angezündet, dass der Boden beim ersten Stück auf zwei Dritteln der Bereiche der Karte steht.",
    ),
    (
        "From then to half an hour before the last order it is fed at one steady pace: the laziest that keeps every promise.",
        "Von da bis eine halbe Stunde vor der letzten Bestellung wird gleichmäßig nachgelegt: so bequem, wie jedes Versprechen noch hält.",
    ),
    (
        "Dome rise, doorway width and doorway height keep the proportion they have in this scenario, within what the fields allow; layers, the fire's share of the floor and the wood stay.",
        "Kuppelhöhe, Breite und Höhe des Ofenmunds behalten das Verhältnis dieses Szenarios, soweit die Felder es erlauben; Schichten, Anteil des Feuers am Boden und Holz bleiben.",
    ),
    ("The burner is the one on offer, under every floor.", "Der Brenner ist der angebotene, unter jedem Boden."),
    (
        "Dome rise and doorway stay as this scenario has them under every floor; layers, the fire's share of the floor and the wood too.",
        "Kuppelhöhe und Ofenmund bleiben unter jedem Boden wie in diesem Szenario; Schichten, Anteil des Feuers am Boden und Holz auch.",
    ),
    ("The burner is the one on offer.", "Der Brenner ist der angebotene."),
    // Bad nights.
    (
        "Parties come at random: a Poisson number in each quarter hour, of random size, each guest choosing by the mix.",
        "Gesellschaften kommen zufällig: eine Poisson-Zahl je Viertelstunde, von zufälliger Größe, jeder Gast wählt nach der Mischung.",
    ),
    (
        "A dish's share of the orders moves by {} from night to night (no source).",
        "Der Anteil eines Gerichts an den Bestellungen schwankt von Abend zu Abend um {} (ohne Quelle).",
    ),
    (
        "What the meter shows moves by {} points from basket to basket (from memory).",
        "Was der Feuchtemesser zeigt, schwankt von Korb zu Korb um {} Punkte (aus dem Gedächtnis).",
    ),
    (
        "A piece weighs {} more or less than the mean (common practice, no source).",
        "Ein Scheit wiegt {} mehr oder weniger als das Mittel (übliche Praxis, ohne Quelle).",
    ),
    (
        "Wood goes in {} late on average (common practice, no source).",
        "Holz kommt im Mittel {} zu spät hinein (übliche Praxis, ohne Quelle).",
    ),
    ("No night was run.", "Kein Abend wurde gespielt."),
    // How sure.
    ("it carries", "er trägt"),
    ("it does not carry", "er trägt nicht"),
    ("air drawn into the flame", "Luft, die die Flamme mitreißt"),
    (
        "no source: 0.5 to 1.2 of the textbook plume is plausible for a fire at a wall",
        "ohne Quelle: das 0,5- bis 1,2-Fache der Lehrbuchflamme ist für ein Feuer an der Wand plausibel",
    ),
    (
        "Read the floor through one evening of known feeding and set the factor so that it agrees.",
        "Lesen Sie den Boden einen Abend lang bei bekanntem Nachlegen und stellen Sie den Faktor so, dass es stimmt.",
    ),
    ("how well floor and dome radiate", "wie gut Boden und Kuppel strahlen"),
    (
        "from memory: fired clay and sooted brick 0.8 to 0.95",
        "aus dem Gedächtnis: gebrannter Ton und berußter Stein 0,8 bis 0,95",
    ),
    ("Set the gun by a probe held against the floor.", "Stellen Sie die IR-Pistole nach einem Fühler am Boden ein."),
    ("how well the hot layer radiates", "wie gut die heiße Schicht strahlt"),
    (
        "from memory: CO2, H2O and some soot in a layer this thin",
        "aus dem Gedächtnis: CO2, H2O und etwas Ruß in einer so dünnen Schicht",
    ),
    (
        "Nothing simple; read dome and floor together over an evening.",
        "Nichts Einfaches; lesen Sie Kuppel und Boden zusammen über einen Abend.",
    ),
    ("how much the air over the floor takes", "wie viel die Luft über dem Boden nimmt"),
    (
        "4 to 9 W/m2K about the 6.5 of McAdams' rule for a plate facing up: from memory",
        "4 bis 9 W/m2K um die 6,5 der Regel von McAdams für eine Platte nach oben: aus dem Gedächtnis",
    ),
    (
        "Read the floor an hour after the last split, doors open, twice a quarter of an hour apart.",
        "Lesen Sie den Boden eine Stunde nach dem letzten Scheit bei offenen Türen, zweimal im Abstand einer Viertelstunde.",
    ),
    ("how much of the flame's heat is glow", "wie viel von der Hitze der Flamme Strahlung ist"),
    (
        "from memory: 0.25 to 0.45 of a wood flame's heat",
        "aus dem Gedächtnis: 0,25 bis 0,45 der Hitze einer Holzflamme",
    ),
    ("how well the stone conducts", "wie gut der Stein leitet"),
    (
        "one piece of goods against another: 15 to 20 % in makers' and handbook tables",
        "ein Stück Ware gegen ein anderes: 15 bis 20 % in den Tabellen von Herstellern und Handbüchern",
    ),
    (
        "Ask the yard for the data sheet, or time how long a burner under the stone takes to show on top.",
        "Fragen Sie den Händler nach dem Datenblatt, oder stoppen Sie, wie lange ein Brenner unter dem Stein braucht, bis er oben zu merken ist.",
    ),
    ("how freely air passes the doorway", "wie frei die Luft durch den Ofenmund geht"),
    ("1986) and 0.69 (Bryant 2011), here with their spread", "1986) und 0,69 (Bryant 2011), hier mit ihrer Streuung"),
    (
        "Measure the doorway's flow at its lower edge with an anemometer.",
        "Messen Sie die Strömung am unteren Rand des Ofenmunds mit einem Anemometer.",
    ),
    ("moisture of the wood", "Feuchte des Holzes"),
    (
        "from memory: a pin meter is good for 2 to 4 points",
        "aus dem Gedächtnis: ein Feuchtemesser ist auf 2 bis 4 Punkte gut",
    ),
    (
        "Split three pieces and read each in its fresh face.",
        "Spalten Sie drei Scheite und messen Sie jedes in der frischen Fläche.",
    ),
    ("weight of a piece", "Gewicht eines Scheits"),
    (
        "common practice, no source: species' density and split size, 10 to 20 %",
        "übliche Praxis, ohne Quelle: Dichte der Art und Größe des Scheits, 10 bis 20 %",
    ),
    ("Weigh a basket of ten pieces.", "Wiegen Sie einen Korb mit zehn Scheiten."),
    ("charcoal left by the wood", "Holzkohle, die vom Holz bleibt"),
    ("from memory: 17 to 25 % of dry wood", "aus dem Gedächtnis: 17 bis 25 % des trockenen Holzes"),
    (
        "Nothing simple; watch how long the coals last between pieces.",
        "Nichts Einfaches; beobachten Sie, wie lange die Glut zwischen den Scheiten hält.",
    ),
    ("how completely the smoke burns", "wie vollständig der Rauch verbrennt"),
    (
        "from memory: 88 to 98 % of the volatiles' heat in a lively fire",
        "aus dem Gedächtnis: 88 bis 98 % der Hitze der Gase in einem lebhaften Feuer",
    ),
    (
        "Look at the chimney: a clear plume means the upper end.",
        "Sehen Sie auf den Schornstein: eine klare Fahne heißt oberes Ende.",
    ),
    ("the floor before lighting", "der Boden vor dem Anzünden"),
    (
        "common practice, no source: a gun reads a spot, the stone below is another",
        "übliche Praxis, ohne Quelle: die IR-Pistole liest einen Fleck, der Stein darunter ist ein anderer",
    ),
    (
        "Take the floor's temperature at four spots before lighting.",
        "Messen Sie den Boden vor dem Anzünden an vier Stellen.",
    ),
    ("how much heat dishes take through their base", "wie viel Hitze die Gerichte durch die Unterseite nehmen"),
    (
        "the range each dish carries after its known bake",
        "die Spanne, die jedes Gericht nach seinem bekannten Backen hat",
    ),
    (
        "Read the floor under a piece just after lifting it.",
        "Lesen Sie den Boden unter einem Stück gleich nach dem Herausnehmen.",
    ),
    // Refusals and faults.
    ("There is no live question {}.", "Die Frage {} gibt es hier nicht."),
    ("The request is not JSON: {}.", "Die Anfrage ist kein JSON: {}."),
    ("There is no question {}.", "Die Frage {} gibt es nicht."),
    ("The answer could not be written: {}.", "Die Antwort ließ sich nicht schreiben: {}."),
    (
        "A time of this evening is needed, HH:MM from {}; {} was given.",
        "Es braucht eine Uhrzeit dieses Abends, HH:MM ab {}; gegeben war {}.",
    ),
    ("Is {} meant?", "Ist {} gemeint?"),
    (
        "The floor's reading at that time is needed, {} degC; {} was given.",
        "Es braucht die Messung des Bodens um diese Zeit, {} °C; gegeben war {}.",
    ),
    ("{#} to {#}, at most {} of them", "{} bis {}, höchstens {} davon"),
    ("Floors on offer are widths in cm, {}.", "Angebotene Böden sind Breiten in cm, {}."),
    (
        "\"{}\" is not what an earlier answer to this question gave as \"{}\".",
        "„{}“ ist nicht, was eine frühere Antwort auf diese Frage als „{}“ gab.",
    ),
    ("\"{}\" is a whole number from 0 to {}.", "„{}“ ist eine ganze Zahl von 0 bis {}."),
    ("{} wanted, something else found", "{} erwartet, etwas anderes gefunden"),
    ("a number is too large", "eine Zahl ist zu groß"),
    ("number out of range", "Zahl zu groß"),
    ("a number", "eine Zahl"),
    ("a whole number", "eine ganze Zahl"),
    ("true or false", "wahr oder falsch"),
    ("text", "Text"),
    ("a list", "eine Liste"),
    ("an object", "ein Objekt"),
    ("a choice", "eine Wahl"),
    ("worker speaks protocol {}, page {}", "der Rechner spricht Fassung {}, die Seite {}"),
    ("page speaks protocol {}, worker {}", "die Seite spricht Fassung {}, der Rechner {}"),
    ("no answer within {} s", "keine Antwort in {} s"),
    ("{#} to {#}", "{} bis {}"),
    ("days", "Tage"),
    ("money", "Geld"),
    ("money/kg", "Geld/kg"),
    ("money/lb", "Geld/lb"),
    ("money/kWh", "Geld/kWh"),
    ("money/m³", "Geld/m³"),
    ("money/therm", "Geld/therm"),
    (
        "Wood of a week: every evening alike; each morning's floor follows from the night before behind shut doors, the first one's from the closed days; only the heating up differs.",
        "Holz einer Woche: jeder Abend gleich; der Boden jedes Morgens folgt aus der Nacht davor hinter geschlossenen Türen, der des ersten aus den Ruhetagen; nur das Aufheizen unterscheidet sich.",
    ),
    (
        "Hoods, flues, burners and gas lines are sized and fitted by licensed people, and what a floor of the building bears is said by whoever answers for it; these figures are for talking to them.",
        "Hauben, Abzüge, Brenner und Gasleitungen bemessen und bauen zugelassene Leute, und was eine Decke trägt, sagt, wer für sie einsteht; diese Zahlen sind für das Gespräch mit ihnen.",
    ),
    (
        "No burner is needed: wood alone carries this evening, lit and fed as the fire plan says.",
        "Es braucht keinen Brenner: Holz allein trägt diesen Abend, angezündet und nachgelegt wie der Feuerplan sagt.",
    ),
    ("The least burner that carries this evening: {}.", "Der kleinste Brenner, der diesen Abend trägt: {}."),
    ("Look at the ways out first.", "Sehen Sie zuerst auf die Auswege."),
    (
        "No burner that was tried carries this evening; look at the ways out.",
        "Kein versuchter Brenner trägt diesen Abend; sehen Sie auf die Auswege.",
    ),
    ("{}, {} more", "{}, {} mehr"),
    ("What gains most: {}, {} more.", "Was am meisten bringt: {}, {} mehr."),
    ("What gains most: {}.", "Was am meisten bringt: {}."),
    ("What costs least: {}, {} more.", "Was am wenigsten kostet: {}, {} mehr."),
    ("What costs least: {}.", "Was am wenigsten kostet: {}."),
    (
        "What costs least: {}, {} more, which is not enough alone.",
        "Was am wenigsten kostet: {}, {} mehr, was allein nicht reicht.",
    ),
    (", which is not enough alone", ", was allein nicht reicht"),
    ("the cook can do it tonight", "der Koch kann es heute Abend tun"),
    ("a turn of the burner's knob, and gas", "ein Dreh am Brenner, und Gas"),
    ("a habit at the pass", "eine Gewohnheit am Pass"),
    (
        "a longer interval between parties: some guests come later",
        "ein längerer Abstand zwischen den Gesellschaften: einige Gäste kommen später",
    ),
    (
        "some of its orders wait for the next quarter hour",
        "einige seiner Bestellungen warten auf die nächste Viertelstunde",
    ),
    ("a wage", "ein Lohn"),
    ("the menu without it", "die Karte ohne es"),
];
