package words

import (
	"io/fs"
	"maps"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/assets"
	"kedge/solver"
	"kedge/solver/quantity"
)

// gone is a word that no text says any more: how it is found, where it stood, and why.
type gone struct{ never, stood, because string }

// goneWords are those of each language: the terms of the field (from memory, of riggers and
// recovery instructors) stand for one thing each, and none of them is read two ways.
var goneWords = map[string][]gone{
	"en": {
		{`(?i)\breckon`, "is reckoned", "archaic: assumed, counted, computed"},
		{`(?i)\bstraps?\b`, "the strap on it", "a sling; tree strap is its other name"},
		{`(?i)\bhook-on point|\bpulling point`, "hook-on point", "a recovery point of a vehicle, else an attachment point"},
		{`(?i)% to failure|^to failure`, "30 % to failure", "reads as 30 % still to go: of failure load"},
		{`(?i)\blead line\b`, "Lead line", "a lead line sounds depth"},
		{`(?i)\bbend it on`, "Bend it on to an anchor", "to bend on is to tie on: redirect"},
		{`(?i)\bstretch (rope|strap)|\bwinch chain`, "stretch rope", "a kinetic rope; a chain is a chain"},
		{`(?i)\banswers for\b`, "Kedge answers for pulls", "to answer for is to be held responsible"},
		{`^Done\b`, "Done: tie back", "nothing was done on the site"},
		{`(?i)\bpurchase|\bsignaller|\bbow eye|\bworse leg|\bpresets?\b|\bverb\b|\broom by room`, "bow eye", "not of the field, or not of whoever reads"},
		{`(?i)\bthings?\b`, "an unknown thing", "what stands on the board is an item, what carries load a part"},
		{`(?i)\bhandbook row|\brow of the handbook`, "no handbook row", "the program's own figures are figures; the handbook is the field rule"},
	},
	"en-US": {
		{`(?i)\bcasualty|\bcasualties`, "the casualty", "a hurt person: the stuck vehicle"},
		{`(?i)\bbonnet|\btyres?\b|\btowards\b|\bmetres?\b`, "a bonnet", "British"},
	},
	"de": {
		{`\bNennwert`, "kein Nennwert", "Lastangabe; der Zug einer Winde ist ihr Nennzug"},
		{`\bDing(e|en|er|s)?\b`, "Unbekanntes Ding", "Objekt"},
		{`\bBucht|Hundsfott|Bugöse|\bBug\b|\bLeinen?\b|Leinenzug`, "in der Bucht", "von Schiffen, nicht von Fahrzeugen: Seilwinkel, Seilöse, Seil"},
		{`\bGespann`, "das Gespann", "Aufbau"},
		{`\bBrett\b`, "auf dem Brett", "Tafel"},
		{`\bUrteil (über|lesen|sagt)|\bVerdikt`, "Urteil über der Tafel", "Ergebnis"},
		{`\bEtikett`, "Etikett", "Kennzeichnung; an der Winde das Typenschild"},
		{`\bStillst(and|\.)`, "bei Stillstand", "liest sich als Ruhe: blockierte Winde"},
		{`Windenführer|Zuschauer|Schreibtisch|Einweisungskarte|Windenkette|Maulhaken|\bUmwege|Verdoppeln`, "Windenführer", "Windenbediener, Unbeteiligte, Büro, Unterweisungskarte, Zugstrang, Maulkupplung, Seilführung, Duplizieren"},
		{`Dehn(seil|gurt)|Kinetik(seil|gurt)`, "Dehnseil", "kinetisches Bergeseil"},
		{`^Erledigt|behoben`, "Erledigt: verkeilt", "im Gelände ist nichts getan"},
		{`geprüfte[rsn]? (Berge)?[Pp]unkt`, "geprüfter Punkt", "niemand hat geprüft: Punkt mit Lastangabe"},
		{`[Zz]urück(zu)?verank|Erdnägel-Verbund`, "zurückverankern", "rückverankern, Erdnagelverbund"},
		{`\bZonen?\b`, "in der Zone", "Gefahrenbereich"},
		{`\bTotmann-Tafel|Erdnagel-Tafel|\b(seine|der|die) Tafel (darf|zählt|hat)`, "nach der Totmann-Tafel", "Tafel ist die Zeichentafel: Tabelle"},
		{`schlechter(er|es|em|en) (Schenkel|Teil)|[Ss]chlechtestes Teil`, "schlechterer Schenkel", "höher belastet"},
		{`\bBlock\b`, "der Block", "Umlenkrolle"},
		{`bis zum Versagen|bis Versagen`, "30 % bis zum Versagen", "liest sich, als blieben 30 %: der Versagenslast"},
		{`\d\.\d`, "29.4 kN", "Dezimalkomma"},
	},
}

// asTyped are lines that hold a number as a command line takes it, or as a licence has it.
var asTyped = regexp.MustCompile(`place=1\.5|\b2\.4 |License 1\.1`)

// otherName is where a sling is called what else it is called, or as a witness said.
var otherName = strings.NewReplacer("tree strap", "", "tree saver strap", "", "the strap parted", "")

// ways out are of people alone: what a vehicle takes is its exit path.
var (
	wayOutOf  = map[string]*regexp.Regexp{"en": regexp.MustCompile(`(?i)\bways? out\b`), "de": regexp.MustCompile(`(?i)\bWege? heraus\b`)}
	wayOutIDs = regexp.MustCompile(`^(person-in-|bystander-in-|way-out-of-zones|draw-pocket|behind\.half-angle)`)
)

func TestWordsThatAreGoneStayGone(t *testing.T) {
	for _, lang := range Languages() {
		t.Run(lang, func(t *testing.T) {
			rules := goneWords[lang]
			require.NotEmpty(t, rules, "each language has its list")
			w, err := New(lang, quantity.Metric)
			require.NoError(t, err)
			never := make([]*regexp.Regexp, len(rules))
			for i, r := range rules {
				never[i] = regexp.MustCompile(r.never)
				assert.Regexp(t, never[i], r.stood, "the list is alive")
			}
			check := func(where, text string) {
				for i, r := range rules {
					if word := never[i].FindString(text); word != "" {
						t.Errorf("%s says %q: %s (%s)", where, word, text, r.because)
					}
				}
			}
			all := maps.Clone(w.base.texts)
			maps.Copy(all, w.own.texts)
			for k := range all {
				text, _ := w.text(k.section, k.id, k.sentence)
				text = otherName.Replace(withoutSlots(text))
				if k.section == searchSection || k.section == calledSection || asTyped.MatchString(text) {
					continue
				}
				check(k.String(), text)
				if of := wayOutOf[lang]; of != nil && of.MatchString(text) && !wayOutIDs.MatchString(k.id) {
					t.Errorf("%s: a vehicle takes its exit path: %s", k, text)
				}
			}
			if lang == "en-US" {
				return // reads the page of en
			}
			page, err := fs.ReadFile(assets.Help(), lang+".txt")
			require.NoError(t, err)
			for line := range strings.Lines(string(page)) {
				if !asTyped.MatchString(line) {
					check(lang+".txt", line)
				}
			}
			if lang != "en" {
				return
			}
			for _, p := range solver.Rulebook() {
				for _, r := range p.Rules {
					check(r.ID, r.Why)
				}
			}
		})
	}
}
