package board

// Event is something the person at the board did. Pointer places are pixels of
// the view, y down.
type Event interface{ event() }

// Mods are the keys held down.
type Mods struct{ Shift, Ctrl, Alt bool }

// PointerMove is the pointer at a place, a button held down or not.
type PointerMove struct {
	X, Y float64
	Mods Mods
}

// PointerDown is a button pressed.
type PointerDown struct {
	X, Y   float64
	Button Button
	Clicks int // 2 for the second press of a double click; 0 counts as 1
	Mods   Mods
}

// PointerUp is the button let go.
type PointerUp struct {
	X, Y float64
	Mods Mods
}

// PointerLeave is the pointer gone from the board.
type PointerLeave struct{}

// Wheel is the wheel turned or two fingers moved: DY > 0 zooms in, about the
// pointer; with Shift, or DX, the picture is moved by so many pixels.
type Wheel struct {
	X, Y, DX, DY float64
	Mods         Mods
}

// Key is a named key: "Escape", "Enter", "Tab", "Backspace", "Delete",
// "ArrowLeft", "ArrowRight", "ArrowUp", "ArrowDown", "F1"…; with Ctrl held also
// a letter, "Z".
type Key struct {
	Name string
	Mods Mods
}

// Rune is a character typed.
type Rune struct{ R rune }

// Command is a menu entry or button, by its id; see [Board.Commands].
type Command struct{ ID string }

// Resize is a new size of the board in pixels.
type Resize struct{ W, H float64 }

func (PointerMove) event()  {}
func (PointerDown) event()  {}
func (PointerUp) event()    {}
func (PointerLeave) event() {}
func (Wheel) event()        {}
func (Key) event()          {}
func (Rune) event()         {}
func (Command) event()      {}
func (Resize) event()       {}

// Button is a button of the pointer.
type Button int

// The buttons. The zero value is the first.
const (
	ButtonFirst  Button = iota // the left one: picks, drags, places
	ButtonMiddle               // held down: moves the picture
	ButtonSecond               // the right one: the caller's menu
)

// Tool is what the next click does. The zero value is [ToolSelect].
type Tool string

// The tools.
const (
	ToolSelect   Tool = ""
	ToolVehicle  Tool = "vehicle"
	ToolAnchor   Tool = "anchor"
	ToolBlock    Tool = "block"
	ToolSling    Tool = "sling"
	ToolLine     Tool = "line"
	ToolDamper   Tool = "damper"
	ToolObstacle Tool = "obstacle"
	ToolPerson   Tool = "person"
	ToolGround   Tool = "ground"
	ToolMeasure  Tool = "measure"
	ToolNote     Tool = "note"
)
