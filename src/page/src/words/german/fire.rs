//! Owns the cook's plan in German: lighting, feeding, closing, readings, the burner's part.

use crate::words::translate::Entry;

pub(super) static ENTRIES: &[Entry] = &[
    // The burner's part.
    ("feed earlier and faster, no gas", "früher und schneller nachlegen, kein Gas"),
    ("spread the coals at {} for a quarter hour", "um {} eine Viertelstunde lang die Glut ausbreiten"),
    ("at most {} of {} started in a quarter hour", "höchstens {} von {} in einer Viertelstunde beginnen"),
    ("Refused: your feeding leans on gas alone.", "Abgelehnt: Ihr Nachlegen stützt sich auf Gas allein."),
    (
        "The burner repays the stone; the fire cooks, and tops need its flame.",
        "Der Brenner erstattet dem Stein; das Feuer backt, und die Oberseiten brauchen seine Flamme.",
    ),
    ("Not even with gas does the evening carry.", "Nicht einmal mit Gas trägt der Abend."),
    (
        "No gas is needed: feeding early and fast enough carries the evening; leave the burner off.",
        "Es braucht kein Gas: früh und schnell genug nachgelegt trägt der Abend; lassen Sie den Brenner aus.",
    ),
    (
        "On as the scenario has it, it would spare about {} of wood for {} of gas.",
        "Wie im Szenario eingeschaltet, würde er etwa {} Holz für {} Gas sparen.",
    ),
    (
        "Gas is needed: on by {}, {} before the rush, for it acts late; {} at full, {}.",
        "Es braucht Gas: an um {}, {} vor der Stoßzeit, denn es wirkt spät; {} voll, {}.",
    ),
    (
        "The least burner that carries is {} on its plate, {} into the stone.",
        "Der kleinste Brenner, der trägt, hat {} auf dem Schild, {} in den Stein.",
    ),
    ("Or without gas: {}.", "Oder ohne Gas: {}."),
    (
        "The stone's underside reaches {}; its limit is {}: beyond it.",
        "Die Unterseite des Steins erreicht {}; ihre Grenze ist {}: darüber hinaus.",
    ),
    (
        "The stone's underside reaches {}; its limit is {}.",
        "Die Unterseite des Steins erreicht {}; ihre Grenze ist {}.",
    ),
    (
        "The burner's probe lies under the coal bed and reads the fire, not the floor: move it.",
        "Der Fühler des Brenners liegt unter dem Glutbett und liest das Feuer, nicht den Boden: versetzen.",
    ),
    // The plan.
    (
        "Nothing is ordered, so there is nothing to light for.",
        "Nichts ist bestellt, also gibt es nichts, wofür man anzündet.",
    ),
    (
        "Water in new or damp stone boils at 100 °C; steam that cannot get out in time splits the lining.",
        "Wasser in neuem oder feuchtem Stein kocht bei 100 °C; Dampf, der nicht rechtzeitig hinaus kann, sprengt das Futter.",
    ),
    ("Time lets it out, fire does not.", "Zeit lässt ihn hinaus, Feuer nicht."),
    (
        "The run is of a dry lining: damp stone stays cooler at first.",
        "Gerechnet ist ein trockenes Futter: feuchter Stein bleibt anfangs kühler.",
    ),
    (
        "Hold by the reading of your gun on the dome, not by the pieces; with no fire for a night between two days.",
        "Halten Sie sich an die IR-Pistole auf der Kuppel, nicht an die Scheite; zwischen zwei Tagen eine Nacht ohne Feuer.",
    ),
    ("a piece every {}", "ein Scheit alle {}"),
    ("{} every {}", "{} alle {}"),
    ("from {} a piece every {}", "ab {} ein Scheit alle {}"),
    ("from {} {#} every {}", "ab {} {} alle {}"),
    ("Light at {} with {} of kindling; {}; the last at {}.", "Um {} anzünden mit {} Anzündholz; {}; das letzte um {}."),
    ("Wood {}: {} before service, {} in it ({}).", "Holz {}: {} vor dem Abend, {} darin ({})."),
    (
        "The coolest load is {} under {} at {}; its least is {}.",
        "Am kühlsten eingeschossen wird {1} um {2} auf {0}; mindestens will es {3}.",
    ),
    (
        "{#} of all loads start in their bands, {} are promised.",
        "{} aller Stücke beginnen in ihrem Bereich, versprochen sind {}.",
    ),
    (
        "Neither a later match nor a longer interval alone was found to save a piece and hold.",
        "Weder ein späteres Anzünden noch ein längerer Abstand allein spart ein Scheit und hält.",
    ),
    ("The floor stands at {} when service begins.", "Der Boden steht bei Beginn auf {}."),
    (
        "The fire leaves {} of the doorway's air and {} of the way to the doorway; heat on the cook there reaches {}.",
        "Das Feuer lässt {} der Luft am Ofenmund und {} des Wegs dorthin übrig; die Hitze auf dem Koch erreicht dort {}.",
    ),
    (
        "{} has the fewest, {}: hold its tickets where its spots are cool.",
        "{} hat die wenigsten, {}: die Bons zurückhalten, wenn die Plätze kühl sind.",
    ),
    (
        "No feeding carries this evening: {} gives first, whatever is fed.",
        "Kein Nachlegen trägt diesen Abend; was auch nachgelegt wird, zuerst gibt nach: {}.",
    ),
    ("No feeding carries this evening: {} gives first.", "Kein Nachlegen trägt diesen Abend; zuerst gibt nach: {}."),
    (
        "Lit at {} and fed {} every {}, about the most that burns clean here, it still falls short; less wood falls shorter.",
        "Um {} angezündet und {} alle {} nachgelegt, etwa das Meiste, was hier sauber brennt, reicht es noch nicht; weniger Holz reicht noch weniger.",
    ),
    (
        "With a piece every {} it is too much already, and less is too little for the floor.",
        "Mit einem Scheit alle {} ist es schon zu viel, und weniger ist zu wenig für den Boden.",
    ),
    (
        "The closest evening loads {} on {} at {}; its band is {} to {}.",
        "Der nächstliegende Abend schießt {} auf {} ein, um {}; der Bereich ist {} bis {}.",
    ),
    (
        "A plan keeps {} of the doorway's air and of the way to the doorway unused; what burns dirty or reaches out is no plan.",
        "Ein Plan lässt {} der Luft am Ofenmund und des Wegs dorthin ungenutzt; was schmutzig brennt oder herausreicht, ist kein Plan.",
    ),
    (
        "Last night's closing and this morning's reading give {} through the shut doors.",
        "Das Schließen gestern und die Messung heute Morgen ergeben {} durch die geschlossenen Türen.",
    ),
    ("The shut doors are taken to let {} through.", "Für die geschlossenen Türen sind {} angenommen."),
    (
        "Last night's closing and this morning's reading fit no leak (was there fire, or were the doors open?); {} is taken.",
        "Zum Schließen gestern und zur Messung heute Morgen passt kein Leck (war noch Feuer da, standen die Türen offen?); {} ist angenommen.",
    ),
    ("Stop feeding after {}.", "Nach {} nicht mehr nachlegen."),
    (
        "Flames out and doors shut by {} at {}, with {} of coals.",
        "Flammen aus und Türen zu bis {} bei {}, mit {} Glut.",
    ),
    (
        "Tomorrow at {} the floor is near {} ({} if the coals are raked out first).",
        "Morgen um {} steht der Boden bei etwa {} ({}, wenn die Glut vorher herausgezogen wird).",
    ),
    // The sheet.
    (
        "Extraction on, carbon monoxide alarm seen to, doorway and front clear.",
        "Abzug an, CO-Melder geprüft, Ofenmund und Platz davor frei.",
    ),
    (
        "{}: {} of dry kindling where the fire will lie, lit from the top with a match.",
        "{}: {} trockenes Anzündholz, wo das Feuer liegen wird, von oben mit dem Streichholz angezündet.",
    ),
    (
        "{}: first pieces on, once the kindling burns through.",
        "{}: die ersten Scheite auflegen, sobald das Anzündholz durchbrennt.",
    ),
    ("{#}: down to {}.", "{}: dann {}."),
    (
        "The burner is no way to light wood: switch it on by its own instructions.",
        "Der Brenner ist nicht zum Anzünden da: einschalten nach seiner eigenen Anleitung.",
    ),
    ("{#} of {}", "{} von {}"),
    (
        "This plan is the laziest for the evening as typed, and holds {} (parties at random, other wood, a cook who feeds late).",
        "Dieser Plan ist der bequemste für den Abend wie getippt und hält {} (Gesellschaften nach Zufall, anderes Holz, ein Koch, der spät nachlegt).",
    ),
    (
        "Lit at {}, in the rush {}, {} of wood more, it holds {}.",
        "Um {} angezündet, in der Stoßzeit {}, {} Holz mehr, hält er {}.",
    ),
    ("Lit at {}, {} of wood more, it holds {}.", "Um {} angezündet, {} Holz mehr, hält er {}."),
    (
        "More wood was not found to hold more of them: look at the ways out instead.",
        "Mehr Holz hielt nicht mehr davon: sehen Sie lieber die Auswege an.",
    ),
    ("match to {} of kindling", "Streichholz an {} Anzündholz"),
    ("spread the coals; nothing is loaded", "Glut ausbreiten; nichts wird eingeschossen"),
    ("rake the coals back", "Glut zurückziehen"),
    ("burner on", "Brenner an"),
    ("rest the {}: it is {} cooler than the side across", "{} ruhen lassen: {} kühler als die Seite gegenüber"),
    ("latest for the rush's first piece", "spätestens das erste Scheit der Stoßzeit"),
    ("last piece", "letztes Scheit"),
    ("flames are out: doors shut, extraction stays on", "Flammen aus: Türen zu, Abzug bleibt an"),
    ("Within {} of the sheet: go on.", "Bis {} neben dem Blatt: weitermachen."),
    (
        "{} under: the next piece ({}) now, then by the sheet; it acts in about {}.",
        "{} darunter: das nächste Scheit ({}) jetzt, dann nach dem Blatt; es wirkt in etwa {}.",
    ),
    ("Until then the coolest side rests.", "Bis dahin ruht die kühlste Seite."),
    (
        "Under a dish's least: hold its tickets, load what likes it cooler, and plan again from the reading.",
        "Unter dem Mindesten eines Gerichts: dessen Bons zurückhalten, einschießen was es kühler mag, und von der Messung neu planen.",
    ),
    ("{} over: leave one piece out.", "{} darüber: ein Scheit auslassen."),
    (
        "Flames at the doorway or black smoke: stop feeding, add no air, stand aside.",
        "Flammen am Ofenmund oder schwarzer Rauch: nicht mehr nachlegen, keine Luft geben, zur Seite treten.",
    ),
    // After a reading.
    ("the plan stands", "der Plan bleibt"),
    ("planned again", "neu geplant"),
    ("{#} read, as planned: {}.", "{} gelesen, wie geplant: {}."),
    ("{#} read, {} planned, {} under: {}.", "{} gelesen, {} geplant, {} darunter: {}."),
    ("{#} read, {} planned, {} over: {}.", "{} gelesen, {} geplant, {} darüber: {}."),
    ("Was that in °F?", "War das in °F?"),
    ("{#} °F is {}.", "{} °F sind {}."),
    ("{#}\u{a0}piece at {}", "{}\u{a0}Scheit um {}"),
    ("{#}\u{a0}pieces at {}", "{}\u{a0}Scheite um {}"),
    ("{} at {}", "{} um {}"),
    ("Feed nothing in the next quarter hour.", "In der nächsten Viertelstunde nichts nachlegen."),
    ("Feed {}.", "Nachlegen: {}."),
    ("Hold the tickets of {} until {}.", "Bons für {} bis {} zurückhalten."),
    (
        "Take {} off the board: its floor does not come back this evening.",
        "{} von der Tafel nehmen: der Boden dafür kommt heute nicht wieder.",
    ),
    ("No ticket needs holding.", "Kein Bon muss warten."),
    ("Rest the {}: it is the coolest.", "Ruhen lassen: {}, dort ist es am kühlsten."),
    (
        "The evening's promises do not hold from here on: {} gives first.",
        "Von hier an hält der Abend seine Versprechen nicht; zuerst gibt nach: {}.",
    ),
    // A first firing.
    (
        "{#} of small fires, {} in all, each held under its temperature and left to cool overnight.",
        "{} kleine Feuer, {} im Ganzen, jedes unter seiner Temperatur gehalten und über Nacht abgekühlt.",
    ),
    ("No faster", "Nicht schneller"),
    ("No faster: {} is refused.", "Nicht schneller: {} wird abgelehnt."),
    // What is taken for granted.
    (
        "Every piece is like the next: {} of wood, fed on the minute.",
        "Ein Scheit ist wie das andere: {} Holz, auf die Minute nachgelegt.",
    ),
    (
        "Covers come as the scenario says; another night differs.",
        "Gedecke kommen, wie das Szenario es sagt; ein anderer Abend ist anders.",
    ),
    (
        "A piece acts on the floor about {} after it is fed, so the rush is fed for that long before it.",
        "Ein Scheit wirkt etwa {} nach dem Nachlegen auf den Boden, darum wird für die Stoßzeit so lange vorher nachgelegt.",
    ),
    ("The morning's floor is even through the stone.", "Am Morgen ist der Boden durch den ganzen Stein gleich warm."),
    (
        "Found by search, then run again as it is shown: every number is from that run.",
        "Durch Suche gefunden, dann gespielt, wie es hier steht: jede Zahl ist aus diesem Lauf.",
    ),
    (
        "Another rhythm may do with a piece or two less.",
        "Ein anderer Rhythmus kommt vielleicht mit ein, zwei Scheiten weniger aus.",
    ),
    ("left", "links"),
    ("right", "rechts"),
    ("front", "am Mund"),
    ("rear", "hinten"),
    ("middle", "Mitte"),
    ("Heat on the cook at the doorway: {}, {}.", "Hitze auf dem Koch am Ofenmund: {}, {}."),
    ("nobody notices it", "niemand merkt sie"),
    (
        "borne through a shift with breaks (staying is held bearable up to {})",
        "mit Pausen eine Schicht lang zu ertragen (zum Bleiben gilt bis {} als erträglich)",
    ),
    (
        "too much to stay in: bare skin hurts after about {}, so step aside between loads",
        "zu viel zum Bleiben: bloße Haut schmerzt nach etwa {}, also zwischen den Beschickungen beiseitetreten",
    ),
    (
        "hard on the cook: bare skin hurts after {} and blisters after {}; sleeves, a shield, turns",
        "hart für den Koch: bloße Haut schmerzt nach {} und wirft nach {} Blasen; Ärmel, ein Schirm, Ablösung",
    ),
    ("Not with this burner.", "Nicht mit diesem Brenner."),
    ("The least that would: {}.", "Der kleinste, der es täte: {}."),
    (
        "Gas is needed: set to {}, on by {}, {} before the rush, for the stone lets nothing through for the first {}; {} at full output, {}.",
        "Es braucht Gas: auf {} gestellt, an um {}, {} vor der Stoßzeit, denn der Stein lässt die ersten {} nichts durch; {} bei voller Leistung, {}.",
    ),
    (
        "The least burner that carries, fed as suits it best: {}.",
        "Der kleinste Brenner, der trägt, nachgelegt, wie es ihm am besten passt: {}.",
    ),
    (
        "{} on its plate ({} into the stone), set to {}, on {} before the first order (the stone lets nothing through for the first {}), {} at full output, {}; the stone's underside reaches {} of the {} it bears",
        "{} auf dem Schild ({} in den Stein), auf {} gestellt, {} vor der ersten Bestellung an (der Stein lässt die ersten {} nichts durch), {} bei voller Leistung, {}; die Unterseite des Steins erreicht {} von den {}, die er verträgt",
    ),
    (
        "The burner's probe lies under the coal bed and reads the fire, not the floor: move it under the food.",
        "Der Fühler des Brenners liegt unter dem Glutbett und liest das Feuer, nicht den Boden: unter das Backgut versetzen.",
    ),
    ("This plan takes it as moved.", "Dieser Plan nimmt ihn als versetzt an."),
    (
        "The fire leaves {} of the doorway's air and {} of the way to the doorway; heat on the cook there reaches {}, {}.",
        "Das Feuer lässt {} der Luft am Ofenmund und {} des Wegs dorthin übrig; die Hitze auf dem Koch erreicht dort {}, {}.",
    ),
    (
        "A reserve costs {} more: lit at {}, {}, it holds {}.",
        "Eine Reserve kostet {} mehr: um {} angezündet, {}, hält sie {}.",
    ),
    (
        "No more wood was found to hold nine in ten: the rest is a matter of guests, hands and room; see the ways out.",
        "Mehr Holz, das neun von zehn hält, fand sich nicht: der Rest liegt an Gästen, Händen und Platz; siehe die Auswege.",
    ),
];
