package main

import (
	"cmp"
	"time"

	"example.com/forepeak/anchor"
	"example.com/forepeak/units"
	"example.com/forepeak/wiring"
)

// boatFile is what a skipper writes down about the boat and the place. Every
// quantity carries its unit.
type boatFile struct {
	Name      string
	Note      string `file:"optional"`
	Boat      boat
	Anchor    anchorSpec
	Rode      rodeSpec
	Windlass  *windlassSpec  `file:"optional"`
	Locker    *lockerSpec    `file:"optional"`
	Marks     *marksSpec     `file:"optional"`
	Snubber   *snubberSpec   `file:"optional"`
	Electrics *electricsSpec `file:"optional"`
	Canvas    *canvasSpec    `file:"optional"`
	Place     place
	Winds     []wind
	Night     *nightSpec `file:"optional"`
	Limits    limits
	Prices    *pricesSpec `file:"optional"`
}

type boat struct {
	Hulls        int
	Length       units.Length // over all
	Waterline    units.Length
	Beam         units.Length
	Draught      units.Length
	Displacement units.Mass
	Roller       units.Length // height of the bow roller above the water
	Sounder      units.Length // depth of the sounder's transducer below the water
	Freeboard    units.Length // mean height of the deck above the water
	Rig          anchor.Rig
	Engine       units.Power  // at the shaft
	Propeller    units.Length // diameter
	Windage      float64      `file:"optional"` // drag over that of the estimate; 1.35, its spread, where left out
}

type anchorSpec struct {
	Type       string
	Mass       units.Mass
	Efficiency float64 // holding in firm sand over its weight, that you trust for its type
	Fluke      units.Angle
}

type rodeSpec struct {
	Connectors []connector `file:"optional"` // between anchor and rode
	Pieces     []pieceSpec // from the anchor up
	Kellet     *kelletSpec `file:"optional"`
}

type connector struct {
	Name     string
	Working  units.Force
	Breaking units.Force
	SideLoad float64 `file:"optional"` // part of the strength left under side load
}

// pieceSpec is a chain or a rope of the catalogue.
type pieceSpec struct {
	Chain  string `file:"optional"`
	Rope   string `file:"optional"`
	Length units.Length

	Worn         units.Length `file:"optional"` // least wire diameter measured on the chain
	StrengthLeft float64      `file:"optional"` // of an old rope, as a part of new
	Splice       float64      `file:"optional"` // strength left by the splice at its lower end
}

type kelletSpec struct {
	Mass units.Mass
	Down units.Length // along the rode, from the roller
}

// windlassSpec is the chain wheel and the counter on it.
type windlassSpec struct {
	Pockets int
	Pitch   units.Length // of the chain that the wheel is cut for
	Wire    units.Length
	Play    units.Length // by which a link can slide in its pocket
	Setting units.Length // of the counter, per turn
	Pulses  int          // of its sensor, per turn
	Step    units.Length // of its display

	RopeLeast units.Length `file:"optional"` // diameters of rope that it grips, as its maker says
	RopeMost  units.Length `file:"optional"`
}

// snubberSpec is a line, or a bridle of two legs, from the boat to a hook on the
// chain.
type snubberSpec struct {
	Rope   string
	Legs   int            // 1 or 2
	Length units.Length   // of each leg, unloaded; the report says what would do
	Spread units.Length   `file:"optional"` // between the fairleads of two legs
	Inner  units.Length   // from cleat to fairlead
	Cleat  units.Force    // what a cleat and the deck under it are good for
	Horns  units.Length   // of the cleat, from tip to tip
	Thick  units.Length   // of a horn, and
	Base   units.Length   // of its base
	Speed  units.Speed    // at which the boat falls back in a sea
	Slack  units.Length   // chain left in a loop between hook and roller
	Hoses  []units.Length // inside diameters of sleeve that can be had
}

// electricsSpec is the circuit of the windlass: bank, breaker, solenoid by the
// windlass, motor, and back.
type electricsSpec struct {
	System     units.Voltage
	Chemistry  wiring.Chemistry
	Cells      int // in series
	Capacity   units.Charge
	Resistance units.Resistance // of the whole bank with its links
	Cranking   units.Current    // of the whole bank, as its maker states it
	Peukert    float64          // exponent

	NoLoad motorPoint // two points of the motor's data sheet at the system voltage
	Rated  motorPoint
	Pull   units.Torque // on the motor's shaft while it hauls
	Haul   units.Time   // for a whole retrieval

	OneWay     units.Length // of cable, bank to windlass
	ToBreaker  units.Length // of that, bank to breaker
	Sheathed   bool         // all the way from bank to breaker
	Insulation units.Temperature
	Breaker    units.Current // rating
	Breaks     units.Current // what the breaker can interrupt
	LeastVolts units.Voltage // at the motor while it hauls
	MetalHull  bool

	Copper units.Temperature `file:"optional"` // of the cable, that its losses are counted at; 60 °C where left out
	Lug    units.Resistance  `file:"optional"` // of each crimped and bolted lug; 0.1 mΩ where left out
}

type motorPoint struct {
	Current units.Current
	Speed   units.AngularSpeed
	Torque  units.Torque `file:"optional"`
}

// canvasSpec is what is to be sewn, and of what.
type canvasSpec struct {
	Cloth     string
	Thickness units.Length
	Warp      float64 // growth along the warp in use, -0.01 for a shrinkage of 1 %
	Weft      float64
	Thread    units.LinearDensity
	Stitch    units.Length
	Seam      units.Length // allowance
	Hem       units.Length
	Rolls     []rollSpec `file:"optional"` // of the cloth, and offcuts of it
	DeckBox   deckBoxSpec
	GasBottle gasBottleSpec
	Awning    awningSpec
}

// rollSpec is a roll of the cloth; one with a length is an offcut aboard.
type rollSpec struct {
	Name     string
	Width    units.Length // over all
	Length   units.Length `file:"optional"`
	Selvedge units.Length // not to be used along both sides
	Step     units.Length `file:"optional"` // in which it is sold
}

type deckBoxSpec struct {
	Length, Width, Height units.Length // over all
	Radius                units.Length // of the upright corners
	Ease                  units.Length
	Latch                 latchSpec
}

// latchSpec is the opening in the front, its middle from the lower left corner
// of the front's flat part.
type latchSpec struct {
	Right, Up     units.Length
	Length, Width units.Length
	Margin        units.Length // of the patch round it
}

type gasBottleSpec struct {
	Girth, Tape      units.Length // what a tape reads round the bottle, and its thickness
	Height, Rise     units.Length // to the shoulder, and from there to the top
	Gores            int
	Ease             units.Length
	Clearance        units.Length // from the bottle's foot to the lower edge
	Valve            units.Length // hole in the top
	Hose, HoseHeight units.Length
}

// awningSpec is the awning over the foredeck, X to starboard and Y forward.
type awningSpec struct {
	Corners   []awningCornerSpec // from the port aft corner, to starboard and round
	Pitch     units.Angle
	Blockage  float64      // of the space under it
	Above     units.Length // over the water
	Heel      units.Angle
	Flutter   float64
	Weight    units.Pressure // of the wet cloth
	Sag       units.Length   // in its middle, in a calm
	Stiffness units.ForcePerLength
	Strength  units.ForcePerLength
	Layers    int
	Safety    float64
	Tape      units.Force // breaking, along the edges
	TapeWidth units.Length
	Stay      staySpec
}

type awningCornerSpec struct {
	Edge    string // the one that begins here
	X, Y    units.Length
	Hollow  float64     // of the edge, over its chord
	Strap   units.Force // breaking
	Lashing units.Force // breaking, of its cord
	Parts   int
	Fixing  units.Force // that it is good for
}

type staySpec struct {
	X, Y      units.Length
	Diameter  units.Length
	Lean      units.Angle // between stay and cloth; it leans forward
	Clearance units.Length
	Overlap   units.Length // of the slit's lips
	Edge      string       // to which the cloth is slit
}

type lockerSpec struct {
	Length, Width units.Length
	Fall          units.Length // from the wheel to its floor
	Slope         units.Angle  // at which the chain heaps up
}

type marksSpec struct {
	Every    units.Length
	AtAnchor units.Length // length of shackle and swivel
	AtZero   units.Length // rode past the wheel when the counter reads zero
	Scheme   [][]string   // the markers of the first mark, the second, ...
}

type place struct {
	Name     string
	Bed      string      // as anchor.Bottoms names it: firm sand, soft mud, ...
	Friction float64     // between rode and bed, as a part of the weight
	Slope    units.Angle `file:"optional"`
	Water    units.Density
	LowWater []units.Length // depths at low water
	Range    units.Length   // rise of the tide to high water
	AnchorIn units.Length   // the one of them the plan is drawn for
	Gust     float64        `file:"optional"` // strongest half minute over the forecast's mean; 1.26 where left out
}

type wind struct {
	Wind units.Speed
	// Pull is horizontal, at the bow; worked out where it is left away.
	Pull units.Force `file:"optional"`
}

// nightSpec is one night, from the tide table, the sounder and the forecast.
type nightSpec struct {
	From, To  time.Time
	Tide      []turnSpec
	Sounding  soundingSpec
	Winds     []nightWindSpec
	Wave      units.Length // from trough to crest
	TideError units.Length
	Antenna   units.Length // of the position receiver, from the bow aft
	Shoals    []shoalSpec  `file:"optional"`
}

type turnSpec struct {
	At     time.Time
	Height units.Length
}

type soundingSpec struct {
	At    time.Time
	Shown units.Length
}

type nightWindSpec struct {
	From      time.Time
	Direction units.Angle
	Wind      units.Speed // forecast mean
}

type shoalSpec struct {
	Name     string
	Distance units.Length // from the anchor
	Bearing  units.Angle
	Rise     units.Length // above the bed at the anchor
}

type limits struct {
	AnchorAngle units.Angle  // greatest pull angle above the bed
	UnderKeel   units.Length // least clearance at low water
	LeastScope  float64      // whatever the wind
}

// pricesSpec is what things cost where the crew buys them.
type pricesSpec struct {
	Currency string
	Items    []priceSpec
}

type priceSpec struct {
	Of        string  // an item of the shopping list, or a kind: rope, cable, lug, fuse, cloth, ...
	Low, High float64 // per metre, per square metre or apiece
}

// fill puts the usual figures where the file leaves something out.
func (f *boatFile) fill() {
	f.Boat.Windage = cmp.Or(f.Boat.Windage, anchor.EstimateSpread)
	if f.Place.Gust == 0 {
		f.Place.Gust, _ = anchor.GustFactor(gustOver, forecastOver) // of constants
	}
	if e := f.Electrics; e != nil {
		e.Copper, e.Lug = cmp.Or(e.Copper, units.Celsius(60)), cmp.Or(e.Lug, 0.1*units.Milliohm)
	}
}
