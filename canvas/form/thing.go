package form

import (
	"math"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"sync"

	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// Kinds of what has fields beside the things of a plan.
const (
	kindGround thingKind = iota + 100
	kindSheet
	kindUnderlay
	kindSurvey
	kindRig
)

// thingKind is a [plan.ThingKind] or one of the kinds above.
type thingKind int

func (k thingKind) String() string {
	switch k {
	case kindGround:
		return "ground"
	case kindSheet:
		return "sheet"
	case kindUnderlay:
		return "underlay"
	case kindSurvey:
		return "survey"
	case kindRig:
		return "rig"
	}
	return plan.ThingKind(k).String()
}

// Thing is something with members: where it stands in a plan, and its value.
type Thing struct {
	id    plan.ID
	kind  thingKind
	steps []string      // from the plan to it; a number is a place in a list
	value reflect.Value // not to be changed
	At    any           // pointer to the value
}

// Find looks a thing up; false if there is none.
func Find(p *plan.Plan, rig, id plan.ID) (Thing, bool) {
	if p == nil {
		return Thing{}, false
	}
	t := Thing{id: id}
	switch id {
	case ThingGround:
		t.kind, t.steps = kindGround, []string{"site", "ground"}
	case ThingSheet:
		t.kind = kindSheet
	case ThingUnderlay:
		t.kind, t.steps = kindUnderlay, []string{"site", "underlay"}
	case ThingSurvey:
		t.kind, t.steps = kindSurvey, []string{"site", "survey"}
	default:
		if i := p.RigIndex(id); i >= 0 {
			t.kind, t.steps = kindRig, []string{"rigs", strconv.Itoa(i)}
			break
		}
		at := p.RigIndex(rig)
		var r *plan.Rig
		if at >= 0 {
			r = &p.Rigs[at]
		}
		slot := plan.NewIndex(p, r).Find(id)
		list, known := thingLists[slot.Kind]
		if !known {
			return Thing{}, false
		}
		in := []string{"site"}
		if slot.InRig {
			in = []string{"rigs", strconv.Itoa(at)}
		}
		t.kind, t.steps = thingKind(slot.Kind), slices.Concat(in, pathSteps(list), []string{strconv.Itoa(slot.Pos)})
	}
	v, ok := walkPath(reflect.ValueOf(p).Elem(), t.steps)
	if !ok {
		return Thing{}, false
	}
	if v.Kind() == reflect.Pointer {
		if v.IsNil() {
			return Thing{}, false
		}
		v = v.Elem()
	}
	t.value, t.At = v, v.Addr().Interface()
	return t, true
}

// thingLists are the JSON lists of the kinds of thing; unknown things have no fields.
var thingLists = map[plan.ThingKind]string{
	plan.ThingVehicle: "vehicles", plan.ThingAnchor: "anchors", plan.ThingObstacle: "obstacles", plan.ThingPerson: "people",
	plan.ThingNote: "notes", plan.ThingMeasure: "measures", plan.ThingLine: "lines", plan.ThingBlock: "blocks",
	plan.ThingSling: "slings", plan.ThingShackle: "shackles", plan.ThingDamper: "dampers",
	plan.ThingPin: "incident/pins",
}

// pathSteps parts a path of member names.
func pathSteps(path string) []string {
	if path == "" {
		return nil
	}
	return strings.Split(path, "/")
}

// walkPath follows a path through structs (JSON names), pointers and lists (the id
// of an element, or its place); false where it leads nowhere.
func walkPath(v reflect.Value, path []string) (reflect.Value, bool) { return follow(v, path, false) }

// openPath is [walkPath] for a value that is to be changed: it copies every pointer
// and list on the way, so that what was shared stays as it is.
func openPath(v reflect.Value, path []string) (reflect.Value, bool) { return follow(v, path, true) }

func follow(v reflect.Value, path []string, unshare bool) (reflect.Value, bool) {
	for _, step := range path {
		if v.Kind() == reflect.Pointer {
			if v.IsNil() {
				return reflect.Value{}, false
			}
			if unshare {
				n := reflect.New(v.Type().Elem())
				n.Elem().Set(v.Elem())
				v.Set(n)
			}
			v = v.Elem()
		}
		switch v.Kind() {
		case reflect.Struct:
			i, ok := memberIndex(v.Type(), step)
			if !ok {
				return reflect.Value{}, false
			}
			v = v.FieldByIndex(i)
		case reflect.Slice:
			i := element(v, step)
			if i < 0 {
				return reflect.Value{}, false
			}
			if unshare {
				s := reflect.MakeSlice(v.Type(), v.Len(), v.Len())
				reflect.Copy(s, v)
				v.Set(s)
			}
			v = v.Index(i)
		default:
			return reflect.Value{}, false
		}
	}
	return v, true
}

// memberIndexes are the Go fields of the JSON members of every type of the
// document, built once from the types and never changed.
var memberIndexes = sync.OnceValue(func() map[reflect.Type]map[string][]int {
	all := map[reflect.Type]map[string][]int{}
	var describe func(t reflect.Type)
	describe = func(t reflect.Type) {
		for t.Kind() == reflect.Pointer || t.Kind() == reflect.Slice {
			t = t.Elem()
		}
		if t.Kind() != reflect.Struct || all[t] != nil {
			return
		}
		members := map[string][]int{}
		all[t] = members
		for _, f := range reflect.VisibleFields(t) {
			if tag, _, _ := strings.Cut(f.Tag.Get("json"), ","); tag != "" && !f.Anonymous {
				members[tag] = f.Index
				describe(f.Type)
			}
		}
	}
	describe(reflect.TypeFor[plan.Plan]())
	return all
})

// memberIndex finds the Go field of a JSON member.
func memberIndex(t reflect.Type, name string) ([]int, bool) {
	i, ok := memberIndexes()[t][name]
	return i, ok
}

// element is the place of a list's element with that id, else at that place; -1
// if there is none. Things are looked up by place, recovery points by id.
func element(v reflect.Value, step string) int {
	if v.Type().Elem() == reflect.TypeFor[plan.RecoveryPoint]() {
		for i := range v.Len() {
			if v.Index(i).FieldByName("ID").String() == step {
				return i
			}
		}
		return -1
	}
	i, err := strconv.Atoi(step)
	if err != nil || i < 0 || i >= v.Len() {
		return -1
	}
	return i
}

// editThing is p with a change made to a copy of the thing; everything else is
// shared with p. The change gets the thing's value, free to be set.
func editThing(p *plan.Plan, t Thing, change func(v reflect.Value) error) (*plan.Plan, error) {
	q := *p
	v, ok := openPath(reflect.ValueOf(&q).Elem(), t.steps)
	if !ok {
		return p, nil
	}
	if v.Kind() == reflect.Pointer {
		n := reflect.New(v.Type().Elem())
		n.Elem().Set(v.Elem())
		v.Set(n)
		v = n.Elem()
	}
	if err := change(v); err != nil {
		return p, err
	}
	return &q, nil
}

// Entered reports whether a thing has a member to be entered, and whether
// somebody entered it.
func (t Thing) Entered(path string, sys quantity.System) (there, entered bool) {
	m, _, ok := memberOf(t, path)
	if !ok {
		return false, false
	}
	v, ok := walkPath(t.value, pathSteps(path))
	return true, !ok || m.show(v, t, sys) != ""
}

// doubts are the ranges that a thing keeps, nil for the ground and its like.
func (t Thing) doubts() *[]plan.Doubt { return doubtsOf(t.value) }

func doubtsOf(v reflect.Value) *[]plan.Doubt {
	if f := v.FieldByName("Doubts"); f.IsValid() && f.CanAddr() {
		list, _ := f.Addr().Interface().(*[]plan.Doubt)
		return list
	}
	return nil
}

// presetNames are the names a member may have in the list of presets of the
// part it belongs to, and the path to that part.
func presetNames(path string) (owner []string, names []string) {
	s := pathSteps(path)
	switch {
	case len(s) == 3 && s[0] == "recovery_points":
		return s[:2], s[2:]
	case len(s) == 2 && s[0] == "winch":
		return s[:1], s[1:]
	}
	return nil, slices.Compact([]string{path, strings.ReplaceAll(path, "/", ".")})
}

// preset reports whether a member still has the value the program proposed.
func (m member) preset(t Thing) bool {
	owner, names := presetNames(m.path)
	v, ok := walkPath(t.value, append(slices.Clone(owner), "presets"))
	if !ok {
		return false
	}
	list, _ := v.Interface().([]string)
	return slices.ContainsFunc(names, func(n string) bool { return slices.Contains(list, n) })
}

// leavePresets takes a member out of the presets of the thing v.
func (m member) leavePresets(v reflect.Value) {
	owner, names := presetNames(m.path)
	list, ok := openPath(v, append(slices.Clone(owner), "presets"))
	if !ok {
		return
	}
	was, _ := list.Interface().([]string)
	left := slices.DeleteFunc(slices.Clone(was), func(n string) bool { return slices.Contains(names, n) })
	if len(left) == len(was) {
		return
	}
	if len(left) == 0 {
		left = nil
	}
	list.Set(reflect.ValueOf(left))
}

// doubtMember is the name a member has in a thing's list of doubts.
func (m member) doubtMember() string {
	name := strings.ReplaceAll(m.path, "/", ".")
	if m.unit == unitRating {
		name += ".force_n"
	}
	return name
}

// setDoubt puts a doubt on a member of the thing v, or takes it off (nil).
func (m member) setDoubt(v reflect.Value, d *plan.Doubt) {
	list := doubtsOf(v)
	if list == nil {
		return
	}
	name := m.doubtMember()
	left := slices.Clone(*list)
	i := slices.IndexFunc(left, func(o plan.Doubt) bool { return o.Member == name })
	switch {
	case d == nil && i < 0:
		return
	case d == nil:
		left = slices.Delete(left, i, i+1)
	case i < 0:
		d.Member = name
		left = append(left, *d)
	default:
		d.Member = name
		left[i] = *d
	}
	if len(left) == 0 {
		left = nil
	}
	*list = left
}

// presencePlace is the presence of how well the place of a thing is known: its two
// ranges in one figure.
const presencePlace = "place"

// placeKnownBy is by how much the place of a thing is not known, as it would be typed;
// the wider, where its ranges differ. Empty: it is known.
func (t Thing) placeKnownBy(sys quantity.System) string {
	list := t.doubts()
	if list == nil {
		return ""
	}
	east, north := (&plan.Head{Doubts: *list}).PlaceDoubt()
	if r := math.Max(float64(east), float64(north)); r > 0 {
		return unitLength.show(entry{value: r, low: r, high: r}, sys)
	}
	return ""
}

// placeOf is the place that is known or not: of an outline its middle.
func placeOf(v reflect.Value) (at plan.Point, ok bool) {
	if o := v.FieldByName("Outline"); o.IsValid() {
		corners, ok := o.Interface().([]plan.Point)
		return plan.Centroid(corners), ok
	}
	if a := v.FieldByName("At"); a.IsValid() {
		at, ok = a.Interface().(plan.Point)
	}
	return at, ok
}

// knowPlace puts how well a place is known; an empty text says that it is.
func (e *editor) knowPlace(v reflect.Value, m member, given string) error {
	list := doubtsOf(v)
	at, ok := placeOf(v)
	if !ok || list == nil {
		return ErrNoMember
	}
	if given = strings.TrimSpace(given); given == e.t.placeKnownBy(e.sys) {
		return nil
	}
	var r quantity.Length
	if given != "" {
		x, err := m.unit.read(strings.TrimSpace(strings.TrimPrefix(given, "±")), e.sys, false, false)
		if err != nil {
			return err
		}
		r = quantity.Length(x.value)
	}
	*list = (&plan.Head{Doubts: *list}).WithPlaceDoubt(at, r)
	return nil
}
