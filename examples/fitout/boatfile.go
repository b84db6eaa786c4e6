package main

import (
	"cmp"
	"slices"
	"time"

	"example.com/forepeak/anchor"
	"example.com/forepeak/units"
	"example.com/forepeak/wiring"
)

// boatFile is what a skipper writes down about the boat and the place. Every
// quantity carries its unit.
type boatFile struct {
	Name      string         // of the boat
	Note      string         `file:"optional"` // printed below the title
	Boat      boat           // the boat herself
	Anchor    anchorSpec     // the one she lies to
	Rode      rodeSpec       // chain and rope, from the anchor up
	Windlass  *windlassSpec  `file:"optional"` // its chain wheel and counter
	Locker    *lockerSpec    `file:"optional"` // where the chain falls
	Marks     *marksSpec     `file:"optional"` // on the rode, for the day the counter fails
	Snubber   *snubberSpec   `file:"optional"` // the line, or bridle, that takes the jerk off the chain
	Electrics *electricsSpec `file:"optional"` // the windlass's circuit
	Canvas    *canvasSpec    `file:"optional"` // covers and an awning to be sewn
	Place     place          // where she anchors
	Winds     []wind         // forecast means to plan for, rising
	Night     *nightSpec     `file:"optional"` // one night over its tide
	Limits    limits         // what the plan has to keep to
	Prices    *pricesSpec    `file:"optional"` // what things cost where you buy them
}

type boat struct {
	Hulls        int          // 1, or 2 for a catamaran
	Length       units.Length // over all; written in feet, the answers are in feet, inches, pounds and wire gauges
	Waterline    units.Length // length at the waterline
	Beam         units.Length // over all, of a catamaran over both hulls
	Draught      units.Length // of the keel, loaded
	Displacement units.Mass   // loaded
	Roller       units.Length // height of the bow roller above the water
	Sounder      units.Length // depth of the sounder's transducer below the water
	Freeboard    units.Length // mean height of the deck above the water
	Rig          anchor.Rig   // sloop, cutter, ketch or motor
	Engine       units.Power  // at the shaft
	Propeller    units.Length // diameter
	Windage      float64      `file:"optional"` // drag over that of the estimate; 1.35, its spread, where left out
}

type anchorSpec struct {
	Type       string      // a name for the plan
	Mass       units.Mass  // of the anchor
	Efficiency float64     // holding in firm sand over its weight, that you trust for its type
	Fluke      units.Angle // angle between fluke and shank
}

type rodeSpec struct {
	Connectors []connector `file:"optional"` // between anchor and rode
	Pieces     []pieceSpec // from the anchor up
	Kellet     *kelletSpec `file:"optional"` // a weight let down the rode
}

type connector struct {
	Name     string      // for the plan
	Working  units.Force // its working load
	Breaking units.Force // its breaking load
	SideLoad float64     `file:"optional"` // part of the strength left under side load
}

// pieceSpec is a chain or a rope of the catalogue.
type pieceSpec struct {
	Chain  string       `file:"optional"` // by its name in the catalogue: standard, wire, grade; a piece has either chain or rope
	Rope   string       `file:"optional"` // fibre, construction and diameter
	Length units.Length // of this piece

	Worn         units.Length `file:"optional"` // least wire diameter measured on the chain
	Pitch        units.Length `file:"optional"` // inside length of its links, measured over many of them
	StrengthLeft float64      `file:"optional"` // of an old rope, as a part of new
	Splice       float64      `file:"optional"` // strength left by the splice at its lower end
}

type kelletSpec struct {
	Mass units.Mass   // in air; of lead
	Down units.Length // along the rode, from the roller
}

// windlassSpec is the chain wheel and the counter on it.
type windlassSpec struct {
	Pockets int          // flat links that lie once round the wheel
	Pitch   units.Length // of the chain that the wheel is cut for
	Wire    units.Length // of the chain that the wheel is cut for
	Play    units.Length // by which a link can slide in its pocket
	Setting units.Length // of the counter, per turn
	Pulses  int          // of its sensor, per turn
	Step    units.Length // of its display

	RopeLeast units.Length `file:"optional"` // thinnest rope that it grips, as its maker says
	RopeMost  units.Length `file:"optional"` // thickest rope that it grips, as its maker says; 0 for chain only or not known

	Rated  units.Force `file:"optional"` // pull on the chain with the motor at its rated load, as its maker says; without it nothing says what it lifts
	Most   units.Force `file:"optional"` // greatest pull, at which it stalls, as its maker says; worked out of rated and electrics where left out
	Roller float64     `file:"optional"` // part of a pull that the bow roller passes on; 0.85, one that turns freely, where left out; 0.7 for a fixed fairlead
}

// snubberSpec is a line, or a bridle of two legs, from the boat to a hook on the
// chain.
type snubberSpec struct {
	Rope   string         // fibre, construction and diameter
	Legs   int            // 1 or 2
	Length units.Length   // of each leg, unloaded; the report says what would do
	Spread units.Length   `file:"optional"` // between the fairleads of two legs
	Inner  units.Length   // from cleat to fairlead
	Cleat  units.Force    // at which a cleat or the deck under it gives way; half of it is used
	Horns  units.Length   // of the cleat, from tip to tip
	Thick  units.Length   // of a horn of the cleat
	Base   units.Length   // of the cleat's base, across
	Speed  units.Speed    // at which the boat falls back in a sea
	Slack  units.Length   // chain left in a loop between hook and roller
	Hoses  []units.Length // inside diameters of sleeve that can be had
}

// electricsSpec is the circuit of the windlass: bank, breaker, solenoid by the
// windlass, motor, and back.
type electricsSpec struct {
	System     units.Voltage    // nominal voltage
	Chemistry  wiring.Chemistry // AGM lead-acid, flooded lead-acid, ...: a wrong one is answered with the list
	Cells      int              // in series
	Capacity   units.Charge     // of the whole bank, at its 20-hour rate
	Resistance units.Resistance // of the whole bank with its links
	Cranking   units.Current    `file:"optional"` // of the whole bank, as its maker states it; may be left out of lithium alone
	Peukert    float64          // exponent of Peukert's law, by which a bank gives less to a great current: from its maker; 1 for none

	NoLoad motorPoint   // the motor with nothing to haul, at the system's voltage
	Rated  motorPoint   // the motor at its rated load, at the system's voltage
	Pull   units.Torque // on the motor's shaft while it hauls
	Haul   units.Time   // for a whole retrieval

	OneWay     units.Length      // of cable, bank to windlass
	ToBreaker  units.Length      // of that, bank to breaker
	Sheathed   bool              // all the way from bank to breaker
	Insulation units.Temperature // temperature that the cable's insulation stands
	Breaker    units.Current     // rating
	Breaks     units.Current     // what the breaker can interrupt
	LeastVolts units.Voltage     // at the motor while it hauls
	MetalHull  bool              // true for steel and aluminium

	Alternator units.Current `file:"optional"` // that it gives while the windlass hauls; half of what that draws where left out
	Carries    units.Current `file:"optional"` // of lithium: what its own switch carries continuously
	Peak       units.Current `file:"optional"` // of lithium: what its own switch carries for some seconds

	Copper units.Temperature `file:"optional"` // of the cable, that its losses are counted at; 60 °C where left out
	Lug    units.Resistance  `file:"optional"` // of each crimped and bolted lug; 0.1 mΩ where left out
}

type motorPoint struct {
	Current units.Current      // that the motor draws there
	Speed   units.AngularSpeed // of the motor's shaft
	Torque  units.Torque       `file:"optional"` // at the rated point; none at no load
}

// canvasSpec is what is to be sewn, and of what.
type canvasSpec struct {
	Cloth     string              // fibre and weight, as you would order it
	Thickness units.Length        // of one layer
	Warp      float64             // growth along the warp in use, -0.01 for a shrinkage of 1 %
	Weft      float64             // growth along the weft in use
	Thread    units.LinearDensity // in tex
	Stitch    units.Length        // length of one
	Seam      units.Length        // allowance
	Hem       units.Length        // allowance
	Rolls     []rollSpec          `file:"optional"` // of the cloth, and offcuts of it
	DeckBox   *deckBoxSpec        `file:"optional"` // a cover for a box with rounded corners; one of the three at least
	GasBottle *gasBottleSpec      `file:"optional"` // a cover for a gas bottle, open below
	Awning    *awningSpec         `file:"optional"` // over the foredeck, X to starboard and Y forward
}

// rollSpec is a roll of the cloth; one with a length is an offcut aboard.
type rollSpec struct {
	Name     string       // as the plan is to call it
	Width    units.Length // over all
	Length   units.Length `file:"optional"` // of an offcut
	Selvedge units.Length // not to be used along both sides
	Step     units.Length `file:"optional"` // in which it is sold
}

type deckBoxSpec struct {
	Length units.Length // over all
	Width  units.Length // over all
	Height units.Length // over all
	Radius units.Length // of the upright corners
	Ease   units.Length // added to the length and to the width
	Latch  latchSpec    // an opening in the front
}

// latchSpec is the opening in the front, its middle from the lower left corner
// of the front's flat part.
type latchSpec struct {
	Right  units.Length // its middle, from the left end of the front's flat part
	Up     units.Length // its middle, from the lower edge
	Length units.Length // of the opening
	Width  units.Length // of the opening
	Margin units.Length // of the patch round it
}

type gasBottleSpec struct {
	Girth      units.Length // what a tape reads round the bottle
	Tape       units.Length // thickness of that tape
	Height     units.Length // from the foot to the shoulder
	Rise       units.Length // from the shoulder to the top
	Gores      int          // of the top
	Ease       units.Length // added to the diameter
	Clearance  units.Length // from the bottle's foot to the lower edge
	Valve      units.Length // hole in the top
	Hose       units.Length // diameter of the hole for the hose
	HoseHeight units.Length // of that hole, from the lower edge
}

// awningSpec is the awning over the foredeck, X to starboard and Y forward.
type awningSpec struct {
	Corners   []awningCornerSpec   // from the port aft corner, to starboard and round
	Pitch     units.Angle          // of the roof, from its middle down
	Blockage  float64              // of the space under it
	Above     units.Length         // over the water
	Heel      units.Angle          // of the boat, counted on top of the wind
	Flutter   float64              // times the steady load
	Weight    units.Pressure       // of the wet cloth; 100 g/m² press with 1 Pa
	Sag       units.Length         // of the wet cloth in its middle, in a calm
	Stiffness units.ForcePerLength // of the cloth, along the threads
	Strength  units.ForcePerLength // of the cloth, breaking
	Layers    int                  // of cloth in a band along the edges
	Safety    float64              // breaking over allowed, of cloth, tape, straps and lashings
	Tape      units.Force          // breaking, along the edges
	TapeWidth units.Length         // of that tape
	Stay      staySpec             // the forestay, that goes through the cloth
}

type awningCornerSpec struct {
	Edge    string       // the one that begins here
	X       units.Length // to starboard
	Y       units.Length // forward
	Hollow  float64      // of the edge, over its chord
	Strap   units.Force  // breaking
	Lashing units.Force  // breaking, of its cord
	Parts   int          // of its lashing
	Fixing  units.Force  // that it is good for
}

type staySpec struct {
	X         units.Length // to starboard
	Y         units.Length // forward, where it goes through the cloth
	Diameter  units.Length // of the stay
	Lean      units.Angle  // between stay and cloth; it leans forward
	Clearance units.Length // of the hole all round
	Overlap   units.Length // of the slit's lips
	Edge      string       // to which the cloth is slit
}

type lockerSpec struct {
	Length units.Length // of its floor
	Width  units.Length // of its floor
	Fall   units.Length // from the wheel to its floor
	Slope  units.Angle  // at which the chain heaps up
}

type marksSpec struct {
	Every    units.Length // distance from mark to mark
	AtAnchor units.Length // length of shackle and swivel
	AtZero   units.Length // rode past the wheel when the counter reads zero
	Scheme   [][]string   // the markers of the first mark, the second, ...; after the last they begin again
}

type place struct {
	Name     string         // of the anchorage
	Bed      string         // of the sea: firm sand, soft mud, ...; a wrong one is answered with the list
	Friction float64        // between rode and bed, as a part of the weight
	Slope    units.Angle    `file:"optional"` // of the bed, rising towards the boat
	Water    units.Density  // its density: 1025 kg/m3 in the sea, 1000 kg/m3 in a lake
	LowWater []units.Length // depths at low water
	Range    units.Length   // rise of the tide to high water
	AnchorIn units.Length   // the one of them the plan is drawn for
	Gust     float64        `file:"optional"` // strongest half minute over the forecast's mean; 1.26 where left out
}

type wind struct {
	Wind units.Speed // forecast mean
	Pull units.Force `file:"optional"` // on the rode at the bow, level, if you have measured it; otherwise it is worked out
}

// nightSpec is one night, from the tide table, the sounder and the forecast.
type nightSpec struct {
	From      time.Time       // when it begins
	To        time.Time       // when it ends
	Tide      []turnSpec      // high and low waters, from before it to after it
	Sounding  soundingSpec    // one look at the sounder
	Winds     []nightWindSpec // the forecast, each from a time on
	Wave      units.Length    // from trough to crest
	TideError units.Length    // by which the water may be lower than predicted
	Antenna   units.Length    // of the position receiver, from the bow aft
	Shoals    []shoalSpec     `file:"optional"` // within reach of the swinging boat
}

type turnSpec struct {
	At     time.Time    // time
	Height units.Length // above chart datum
}

type soundingSpec struct {
	At    time.Time    // time
	Shown units.Length // what the sounder shows
}

type nightWindSpec struct {
	From      time.Time   // time
	Direction units.Angle // that it blows from
	Wind      units.Speed // forecast mean
}

type shoalSpec struct {
	Name     string       // for the plan
	Distance units.Length // from the anchor
	Bearing  units.Angle  // from the anchor
	Rise     units.Length // above the bed at the anchor
}

type limits struct {
	AnchorAngle units.Angle  // greatest pull angle above the bed
	UnderKeel   units.Length // least clearance at low water
	LeastScope  float64      // whatever the wind
}

// pricesSpec is what things cost where the crew buys them.
type pricesSpec struct {
	Currency string      // printed above the prices
	Items    []priceSpec // their prices
}

type priceSpec struct {
	Of   string  // an item of the shopping list, or a kind: rope, cable, lug, fuse, cloth, ...
	Low  float64 // least, per metre, per square metre or apiece
	High float64 // most, likewise
}

// fill puts the usual figures where the file leaves something out.
func (f *boatFile) fill() {
	f.Boat.Windage = cmp.Or(f.Boat.Windage, anchor.EstimateSpread)
	if f.Place.Gust == 0 {
		f.Place.Gust, _ = anchor.GustFactor(gustOver, forecastOver) // of constants
	}
	if w := f.Windlass; w != nil {
		w.Roller = cmp.Or(w.Roller, 0.85)
	}
	if e := f.Electrics; e != nil {
		e.Copper, e.Lug = cmp.Or(e.Copper, units.Celsius(60)), cmp.Or(e.Lug, 0.1*units.Milliohm)
	}
}

// clone shares with f what doubts do not change.
func (f *boatFile) clone() *boatFile {
	c := *f
	c.Rode.Pieces = slices.Clone(f.Rode.Pieces)
	c.Windlass, c.Snubber, c.Electrics, c.Canvas = copied(f.Windlass), copied(f.Snubber), copied(f.Electrics), copied(f.Canvas)
	if s := c.Canvas; s != nil {
		s.DeckBox, s.Awning = copied(s.DeckBox), copied(s.Awning)
	}
	return &c
}

func copied[T any](p *T) *T {
	if p == nil {
		return nil
	}
	c := *p
	return &c
}
