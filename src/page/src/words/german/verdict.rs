//! Owns the verdict in German: its causes, the resources, the findings, the cautions, and how numbers are named.

use crate::words::translate::Entry;

pub(super) static ENTRIES: &[Entry] = &[
    // The verdict.
    ("Nothing is ordered, so nothing gives.", "Nichts ist bestellt, also gibt nichts nach."),
    (
        "The floor stands at {} for the first order and at {} when the doors close.",
        "Der Boden steht bei der ersten Bestellung auf {} und auf {}, wenn geschlossen wird.",
    ),
    ("It carries.", "Er trägt."),
    ("Nothing comes near its limit all night.", "Den ganzen Abend kommt nichts in die Nähe seiner Grenze."),
    (
        "It only just carries: {} to spare on {}, which gives first if anything comes late.",
        "Er trägt gerade noch: {0} übrig; kommt etwas zu spät, gibt zuerst nach: {1}.",
    ),
    ("It carries, with {} to spare on {}, which would give first.", "Er trägt, mit {0} übrig; zuerst gäbe nach: {1}."),
    ("At its tightest, about {}, {}.", "Am knappsten ist es gegen {}: {}."),
    ("Beyond a limit: from {} {}.", "Über einer Grenze: ab {} {}."),
    ("Not as it stands: from {} {}.", "So nicht: ab {} {}."),
    ("{}, but too late for the spots in use", "{}, aber zu spät für die benutzten Plätze"),
    (
        "You promise that nine orders in ten wait at most {}.",
        "Sie versprechen, dass neun Bestellungen von zehn höchstens {} warten.",
    ),
    ("Here one in ten waits longer than {}", "Hier wartet eine von zehn länger als {}"),
    ("Here more than one in ten never gets in{}", "Hier kommt mehr als eine von zehn nie in den Ofen{}"),
    (
        "You promise that no bake slows by more than {}.",
        "Sie versprechen, dass kein Backen um mehr als {} langsamer wird.",
    ),
    ("By {} a bake of {} takes {} instead of {}", "Um {} braucht {} {} statt {}"),
    ("By {} a bake takes {} instead of {}", "Um {} braucht ein Backen {} statt {}"),
    (
        "You promise that {} of loads start inside their floor band.",
        "Sie versprechen, dass {} der Stücke in ihrem Bodenbereich beginnen.",
    ),
    ("Here {} of all do", "Hier tun es {} von allen"),
    ("Here {} of all do, {} falling short most often", "Hier tun es {} von allen, am seltensten {}"),
    ("You promise that the last piece is out by {}.", "Sie versprechen, dass das letzte Stück um {} heraus ist."),
    ("It is still in when the reckoning ends", "Es ist noch drin, wenn die Rechnung endet"),
    ("It comes out at {}", "Es kommt um {} heraus"),
    (
        "The flames stay inside the oven and the fire burns clean: that limit holds for every plan.",
        "Die Flammen bleiben im Ofen und das Feuer brennt sauber: diese Grenze gilt für jeden Plan.",
    ),
    ("the order", "die Bestellung"),
    ("{} waits too long", "wartet {} zu lange"),
    ("{} bakes too slowly", "backt {} zu langsam"),
    ("{} goes in outside its floor band", "kommt {} außerhalb des Bodenbereichs hinein"),
    ("the queue outlasts the service", "dauert die Schlange länger als der Abend"),
    ("the fire leaves its limits", "verlässt das Feuer seine Grenzen"),
    // Resources.
    ("floor heat", "Bodenhitze"),
    ("top heat", "Oberhitze"),
    ("room on the floor", "Platz auf dem Boden"),
    ("floor space", "Platz"),
    ("hands", "Hände"),
    ("fire", "Feuer"),
    ("the fire", "das Feuer"),
    ("doorway air", "Luft am Mund"),
    ("the doorway's air", "die Luft am Ofenmund"),
    ("nothing", "nichts"),
    ("none", "nichts"),
    ("the floor's heat", "die Bodenhitze"),
    ("the top of the floor's band", "die Obergrenze des Bodenbereichs"),
    ("the dome's heat", "die Hitze der Kuppel"),
    ("clean burning", "das saubere Brennen"),
    ("the flame's reach", "die Reichweite der Flamme"),
    // Causes: each a clause of its own.
    (" where the floor began at {}", " , wo der Boden mit {} begann"),
    (
        "pieces go down on {} where the floor began at {}, and the bake you know was on {}",
        "Stücke kommen auf {}, wo der Boden mit {} begann; das Backen, das Sie kennen, war auf {}",
    ),
    (
        "pieces go down on {}, and the bake you know was on {}",
        "Stücke kommen auf {}; das Backen, das Sie kennen, war auf {}",
    ),
    (
        "pieces go down on up to {}, and the band ends at {}",
        "Stücke kommen auf bis zu {}, und der Bereich endet bei {}",
    ),
    ("the dome stands at {}, and the tops want {}", "die Kuppel steht auf {}, und die Oberseiten wollen {}"),
    ("{} need {} side by side, and {} fit", "{} brauchen {} nebeneinander, und {} passen"),
    ("the fire burns {} an hour, and the floor wants {}", "das Feuer verbrennt {} je Stunde, und der Boden will {}"),
    (
        "the fire gets {} times the air it needs, and burning clean takes {} times",
        "das Feuer bekommt das {}-Fache der nötigen Luft, und sauberes Brennen nimmt das {}-Fache",
    ),
    ("the flame is {} long, and the doorway is {} away", "die Flamme ist {} lang, und der Ofenmund ist {} entfernt"),
    (
        "the fire asks for air for {} of wood an hour, and the doorway lets in enough for {}",
        "das Feuer verlangt Luft für {} Holz je Stunde, und der Ofenmund lässt genug für {} herein",
    ),
    ("nothing comes near its limit", "nichts kommt in die Nähe seiner Grenze"),
    (
        "{} an hour pull {} out of the floor, and it wins back {} between splits",
        "{} je Stunde ziehen {} aus dem Boden, und zwischen den Scheiten gewinnt er {} zurück",
    ),
    (
        "{} an hour pulls {} out of the floor, and it wins back {} between splits",
        "{} je Stunde zieht {} aus dem Boden, und zwischen den Scheiten gewinnt er {} zurück",
    ),
    (
        "loading, turning and lifting take {} of work in the hour, and one pair of hands has {}",
        "Einschießen, Drehen und Herausnehmen machen {} Arbeit in der Stunde, und ein Paar Hände hat {}",
    ),
    (
        "loading, turning and lifting take {} of work in the hour, and {} pairs of hands have {}",
        "Einschießen, Drehen und Herausnehmen machen {} Arbeit in der Stunde, und {} Paar Hände haben {}",
    ),
    // Events: they stand behind "ab 20:05".
    ("for {}", "für {}"),
    ("{#} for {}", "{} für {}"),
    ("of {}", "von {}"),
    ("the floor is too cool{}", "ist der Boden zu kühl{}"),
    ("the floor runs out of heat{}", "geht dem Boden die Hitze aus{}"),
    ("the floor is too hot{}", "ist der Boden zu heiß{}"),
    ("dome and flame are too weak{}", "sind Kuppel und Flamme zu schwach{}"),
    ("there is no room on the floor{}", "ist kein Platz auf dem Boden{}"),
    ("there are not enough hands{}", "fehlen Hände{}"),
    ("the fire is too small{}", "ist das Feuer zu klein{}"),
    ("the fire burns dirty", "brennt das Feuer schmutzig"),
    ("the flames reach the doorway", "reichen die Flammen bis zum Ofenmund"),
    ("the doorway's air holds the fire back{}", "hält die Luft am Ofenmund das Feuer zurück{}"),
    ("Stop feeding.", "Nicht mehr nachlegen."),
    ("Do not add air.", "Keine Luft geben."),
    ("Feed fewer or thinner pieces, further apart.", "Weniger oder dünnere Scheite nachlegen, in größeren Abständen."),
    ("No feeding is shown for this plan.", "Für diesen Plan wird kein Nachlegen gezeigt."),
    // What the verdict counts.
    (
        "Counted is the load with {} of all above it: {} at {}, {} in a band of {} to {}.",
        "Gezählt wird das Stück, über dem {} von allen liegen: {} um {}, {} in einem Bereich von {} bis {}.",
    ),
    ("Nine orders in ten wait {}, {} is promised.", "Neun Bestellungen von zehn warten {}, versprochen sind {}."),
    (
        "{} of the loads start in their bands, {} are promised.",
        "{} der Stücke beginnen in ihrem Bereich, versprochen sind {}.",
    ),
    ("The bake slows by {}, {} is allowed.", "Das Backen wird um {} langsamer, erlaubt sind {}."),
    // Findings and warnings.
    ("a pale base", "blassem Boden"),
    ("its base ahead of its top", "einem Boden, der der Oberseite voraus ist"),
    ("a pale top", "blasser Oberseite"),
    ("{#} of {} came out with {}.", "{} von {} kamen mit {} heraus."),
    (
        "Your gun will show {} on the coolest tile of the food's floor, as low as {} under a piece just lifted.",
        "Ihre IR-Pistole wird auf der kühlsten Platte des Speisenbodens {} zeigen, bis hinab zu {} unter einem eben herausgenommenen Stück.",
    ),
    (
        "Your probe, {} deep, will show {} at the least: it follows the face late and shows only part of its dips.",
        "Ihr Fühler, {} tief, wird mindestens {} zeigen: er folgt der Oberfläche spät und zeigt nur einen Teil ihrer Senken.",
    ),
    (
        "Wood at {} on the meter smokes and costs wood: under {} burns cleaner.",
        "Holz mit {} am Feuchtemesser raucht und kostet Holz: unter {} brennt es sauberer.",
    ),
    (
        "The floor is reckoned at up to {} on average: above {} figures here run hotter than measured ovens.",
        "Der Boden ist im Mittel mit bis zu {} errechnet: über {} liegen die Zahlen hier höher als an gemessenen Öfen.",
    ),
    (
        "No fire is planned: nothing is lit and nothing is fed.",
        "Es ist kein Feuer geplant: nichts wird angezündet, nichts nachgelegt.",
    ),
    (
        "No plan runs on gas alone: the burner repays the stone, the fire cooks.",
        "Kein Plan läuft mit Gas allein: der Brenner erstattet dem Stein, das Feuer backt.",
    ),
    ("{}: {} wide does not pass a doorway of {}.", "{}: {} breit geht nicht durch einen Ofenmund von {}."),
    (
        "While it catches the fire has {} times the air it needs, clean from {}: it smokes, extraction on.",
        "Beim Angehen hat das Feuer das {}-Fache der nötigen Luft, sauber ab {}: es raucht, Abzug an.",
    ),
    (
        "The floor's stone reaches {}, above its limit of {}.",
        "Der Stein des Bodens erreicht {}, über seiner Grenze von {}.",
    ),
    ("A face in the oven reaches {}: overfired.", "Eine Fläche im Ofen erreicht {}: überheizt."),
    ("Stop feeding and let it fall.", "Nicht mehr nachlegen und fallen lassen."),
    ("Heat on the cook at the doorway: {}.", "Hitze auf dem Koch am Ofenmund: {}."),
    (
        "Above {} bare skin hurts within half a minute; stand aside, shield, rest.",
        "Über {} schmerzt bloße Haut in einer halben Minute; zur Seite treten, abschirmen, ausruhen.",
    ),
    (
        "The floor read {} K lower at lifting, which is {} kJ through the base of a piece that needs {} kJ in all.",
        "Der Boden stand beim Herausnehmen {} K tiefer, das sind {} kJ durch die Unterseite eines Stücks, das im Ganzen {} kJ braucht.",
    ),
    ("Read the floor again right after lifting.", "Lesen Sie den Boden noch einmal gleich nach dem Herausnehmen."),
    ("This time and this weight do not fit together.", "Diese Zeit und dieses Gewicht passen nicht zusammen."),
    (
        "To take {} kJ through its base in {} min from a floor at {} it would need {} times the contact that is usual.",
        "Um {} kJ in {} min durch die Unterseite von einem Boden mit {} zu nehmen, bräuchte es das {}-Fache des üblichen Kontakts.",
    ),
    ("Weigh a piece and time it again.", "Wiegen Sie ein Stück und stoppen Sie noch einmal die Zeit."),
    (
        "To take {} kJ from above in {} min under a dome at {} it would need {} times what its size can catch.",
        "Um {} kJ in {} min von oben unter einer Kuppel mit {} zu nehmen, bräuchte es das {}-Fache dessen, was seine Größe auffangen kann.",
    ),
    (
        "Weigh a piece, time it, and read the dome again.",
        "Wiegen Sie ein Stück, stoppen Sie die Zeit und lesen Sie die Kuppel noch einmal.",
    ),
    // A computing that failed.
    (
        "the heat balance of the smoke under the dome leaves {} W open where {} W may be",
        "die Wärmebilanz des Rauchs unter der Kuppel lässt {} W offen, wo {} W sein dürfen",
    ),
    (
        "the stone would have to be looked at every {} s, and {} s is the finest there is",
        "der Stein müsste alle {} s betrachtet werden, und {} s ist das Feinste, was es gibt",
    ),
    (
        "stone came out at {} °C, beyond {} °C, which no oven's is",
        "für Stein kamen {} °C heraus, über {} °C, was keiner in einem Ofen hat",
    ),
    ("the heat ledger leaves {} J open where {} J may be", "die Wärmerechnung lässt {} J offen, wo {} J sein dürfen"),
    ("The computing failed at {}: {}.", "Die Rechnung ist bei {} gescheitert: {}."),
    (
        "There is no answer to this scenario, for any shown would be wrong.",
        "Zu diesem Szenario gibt es keine Antwort, denn jede gezeigte wäre falsch.",
    ),
    ("Please report the file.", "Bitte melden Sie die Datei."),
    ("no number of", "keine Zahl von"),
    // Cautions.
    (
        "Extraction on before the match, never off over live coals.",
        "Abzug an vor dem Anzünden, nie aus über lebender Glut.",
    ),
    (
        "Hood and flue are fitted and swept by licensed people.",
        "Haube und Abgas werden von Fachleuten mit Zulassung gebaut und gekehrt.",
    ),
    ("A CO alarm that all can hear.", "Ein CO-Melder, den alle hören."),
    (
        "Carbon monoxide has no smell; if the alarm sounds, get everybody out into the air and call for help.",
        "Kohlenmonoxid riecht nicht; schlägt der Melder an, alle hinaus an die Luft und Hilfe rufen.",
    ),
    (
        "No spirit, gel, oil or lighter fluid: it flares back.",
        "Kein Spiritus, Gel, Öl oder Anzünder aus der Flasche: das schlägt zurück.",
    ),
    ("Dry kindling and a match.", "Trockenes Anzündholz und ein Streichholz."),
    ("Clean, dry, untreated wood only.", "Nur sauberes, trockenes, unbehandeltes Holz."),
    (
        "Paint, glue, pallets, laminate and rubbish poison food and air.",
        "Farbe, Leim, Paletten, Laminat und Müll vergiften Speisen und Luft.",
    ),
    (
        "Flames at the doorway: stop feeding, do not add air.",
        "Flammen am Ofenmund: nicht mehr nachlegen, keine Luft geben.",
    ),
    (
        "Stand clear, and feed again when they have drawn back.",
        "Abstand halten und erst nachlegen, wenn sie sich zurückgezogen haben.",
    ),
    (
        "At most a day's wood beside the oven, clear of its heat.",
        "Höchstens das Holz eines Tages neben dem Ofen, außer Reichweite seiner Hitze.",
    ),
    (
        "Fire codes ask this (NYC FC 609.5 among them); yours comes first.",
        "Brandvorschriften verlangen das (NYC FC 609.5 etwa); die Ihren gehen vor.",
    ),
    (
        "No water on hot stone or into the fire: steam scalds.",
        "Kein Wasser auf heißen Stein oder ins Feuer: Dampf verbrüht.",
    ),
    ("The floor cracks too.", "Auch der Boden reißt."),
    (
        "A fire out of hand: the right extinguisher, and the fire brigade.",
        "Ein Feuer außer Kontrolle: das richtige Löschgerät und die Feuerwehr.",
    ),
    (
        "The doorway burns in seconds: sleeves and dry mitts.",
        "Der Ofenmund verbrennt in Sekunden: Ärmel und trockene Handschuhe.",
    ),
    (
        "Its heat wears people out; take turns, and drink water.",
        "Seine Hitze zehrt; wechseln Sie sich ab und trinken Sie Wasser.",
    ),
    (
        "Opening closed hot doors: stand aside, a hand's width, wait.",
        "Geschlossene heiße Türen öffnen: zur Seite treten, eine Handbreit, warten.",
    ),
    ("Air rushes in and flames may leap out.", "Luft stürzt hinein, und Flammen können herausschlagen."),
    (
        "Doors shut on live coals: extraction stays on until they are dead.",
        "Türen zu über lebender Glut: der Abzug bleibt an, bis sie erloschen ist.",
    ),
    ("They make carbon monoxide all night.", "Sie macht die ganze Nacht Kohlenmonoxid."),
    (
        "Embers into a lidded metal bin standing on stone or concrete.",
        "Glut in einen Metalleimer mit Deckel, der auf Stein oder Beton steht.",
    ),
    ("They live for days: keep it away from all that burns.", "Sie lebt tagelang: fern halten von allem, was brennt."),
    (
        "Damp stone is warmed slowly: steam that cannot get out splits the lining.",
        "Feuchter Stein wird langsam erwärmt: Dampf, der nicht hinaus kann, sprengt das Futter.",
    ),
    (
        "A new lining, and one after building, rain or weeks of rest, is dried by this schedule and no faster.",
        "Ein neues Futter, und eines nach Bau, Regen oder Wochen der Ruhe, wird nach diesem Plan getrocknet und nicht schneller.",
    ),
    (
        "A floor this cold may be damp: warm it slowly, or steam splits the lining.",
        "Ein so kalter Boden kann feucht sein: langsam erwärmen, sonst sprengt Dampf das Futter.",
    ),
    (
        "A new lining, and one after building, rain or weeks of rest, is dried by the slow schedule of a first firing.",
        "Ein neues Futter, und eines nach Bau, Regen oder Wochen der Ruhe, wird nach dem langsamen Plan eines ersten Anheizens getrocknet.",
    ),
    (
        "Wipe with a wrung-out cloth on a long handle: the steam scalds.",
        "Mit ausgewrungenem Tuch am langen Stiel wischen: der Dampf verbrüht.",
    ),
    ("Keep face and arm aside.", "Gesicht und Arm zur Seite."),
    (
        "Spread coals throw sparks: clear people and cloths away first.",
        "Ausgebreitete Glut wirft Funken: erst Menschen und Tücher weg.",
    ),
    ("Rake slowly, the rear first.", "Langsam harken, hinten zuerst."),
    (
        "Hot holding by thermometer and local food code.",
        "Warmhalten nach Thermometer und örtlicher Lebensmittelvorschrift.",
    ),
    ("The falling oven does not know how hot the food is.", "Der fallende Ofen weiß nicht, wie heiß die Speise ist."),
    (
        "Burner, gas line and flue are for licensed people.",
        "Brenner, Gasleitung und Abgas sind Sache von Fachleuten mit Zulassung.",
    ),
    (
        "Smell gas: no flame, no switch, shut it off, get out and call.",
        "Gasgeruch: keine Flamme, kein Schalter, absperren, hinaus und anrufen.",
    ),
    (
        "Heat absorbed is not a core temperature: a thermometer in {}.",
        "Aufgenommene Wärme ist keine Kerntemperatur: ein Thermometer in {}.",
    ),
    (
        "In the thickest part, every time; the local food code decides when it is safe.",
        "In die dickste Stelle, jedes Mal; die örtliche Lebensmittelvorschrift entscheidet, wann es sicher ist.",
    ),
    (
        "Pans and handles burn and look cold: dry mitts.",
        "Pfannen und Stiele brennen und sehen kalt aus: trockene Handschuhe.",
    ),
    ("Say \"hot\" when you set one down ({}).", "Sagen Sie „heiß“, wenn Sie eine absetzen ({})."),
    // Numbers.
    ("not known", "nicht bekannt"),
    ("{} an hour", "{} je Stunde"),
    ("half", "die Hälfte"),
    ("a third", "ein Drittel"),
    ("a quarter", "ein Viertel"),
    ("a fifth", "ein Fünftel"),
    ("a tenth", "ein Zehntel"),
    ("{#}\u{a0}piece", "{}\u{a0}Stück"),
    ("{#}\u{a0}pieces", "{}\u{a0}Stück"),
    ("{#}\u{a0}place", "{}\u{a0}Platz"),
    ("{#}\u{a0}places", "{}\u{a0}Plätze"),
    ("{#}\u{a0}cover", "{}\u{a0}Gedeck"),
    ("{#}\u{a0}covers", "{}\u{a0}Gedecke"),
    ("{#}\u{a0}day", "{}\u{a0}Tag"),
    ("{#}\u{a0}days", "{}\u{a0}Tage"),
    ("{#}\u{a0}hour", "{}\u{a0}Stunde"),
    ("{#}\u{a0}hours", "{}\u{a0}Stunden"),
    ("{#}\u{a0}rough night", "{}\u{a0}rauer Abend"),
    ("{#}\u{a0}rough nights", "{}\u{a0}raue Abende"),
];
