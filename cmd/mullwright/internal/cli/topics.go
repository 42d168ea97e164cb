package cli

import "github.com/spf13/cobra"

// topics are pages of help that belong to no command.
var topics = []struct{ name, short, text string }{
	{"amounts", "How amounts, shares and parts are written", `Amounts are a number and a unit, with or without a space: 12.5g, 12,5 g, 3 tbsp.

  mass      g, kg, mg, oz, lb
  volume    ml, cl, l, µl, cm3, "fl oz US", "fl oz imp", tsp (5 ml), tbsp (15 ml)
  length    mm, cm, m, in, ft          film      µm, mm, mil
  area      cm2, m2, in2, ft2          density   g/ml, kg/l, kg/m3
  oil       g/100g, ml/100g            share     %
  price     /g, /100g, /kg, /oz, /lb, in your own money
  time      s, min, h, d               warmth    C

A decimal comma is read where it cannot be a thousands comma: 12,5 and 0,125 are
decimals, 1,250 is refused with both readings named.

Parts stand behind an equals sign, as in yellow-ochre=2 raw-umber=1, and are by
mass unless --parts-by says volume or spoon. Moisture is of the damp mass. An
extender's share is of the pigment mass. A wax's share is of the paste.`},
	{"formula-file", "How a question is kept in a file", `A formula file holds the words of a command's flags, without the dashes, under
the command's name. Values are text in quotes; lists are lists. Flags on the
command line win over the file.

  [mull]
  pigments = ["viridian=3", "yellow-ochre=2"]
  oil = ["walnut-oil"]
  tubes = "2x20ml"
  body = "buttery"
  loss = "7%"

Then: mullwright mull leaf-green.toml
--save FILE writes one from a question; it never writes over a file.
An unknown key is refused, with its line.`},
	{"catalogue-file", "How to add a pigment or an oil of your own", `A jar that is not in the catalogue needs a density and an oil absorption, each
with the word of where it comes from. Write them in a file:

  [pigment.quarry-lane-ochre]
  name = "Quarry Lane ochre"
  kind = "pigment"
  family = "yellow"
  density = [{ value = "2.95 g/ml", source = "own measurement" }]
  oil-absorption = [
    { value = "41 g/100g", method = "rub-out", source = "own measurement" },
  ]

Then: mullwright mull quarry-lane-ochre --pigment-mass 20g --catalogue mine.toml
A file named catalogue.toml in the mullwright folder of your configuration
folder is read every time.

A range is written { low = "30 g/100g", high = "60 g/100g", ... }; low and high
mean that one lot in ten lies below and one above. Methods: rub-out,
gardner-coleman, absorptometer, unstated. Sources: own measurement, common
practice, from memory, or the key of a [source.key] table with author, title and
year. Oils and the rest stand under [medium.name].

Naming a pigment that is in the catalogue changes the values you give and leaves
the others; the answer says so.

Do not know the density? 'mullwright powder density' finds it. The oil
absorption? 'mullwright rubout' does; with --name, --density and --save it writes
the whole file.

A pigment of yours has no hazards assessed: follow its safety data sheet.`},
	{"batch-file", "How your batch book is kept in files", `Each entry of the batch book is a file of its own, 0012-prussian-blue.toml, in
mullwright/batches of your data folder or in the folder of --book. Only the
number counts; the rest of the name is for you. Mend a file by hand where it is
wrong; the program only ever adds files. A batch:

  date = "2 March"
  remark = "second mull stiffer"

  [batch] # final weights
  pigments = [
    {id = "prussian-blue", mass = "60 g", lot = "A12"},
  ]
  oils = [
    {id = "linseed-oil", mass = "41.3 g"},
  ]
  body = "buttery"

It may also hold extenders and waxes, in lists like these, and moisture = "5%",
loss = "4.1 g", drying = "touch-dry after 4 days". Liquids may have a volume in
place of a mass. A rub-out:

  [rub-out]
  id = "prussian-blue"
  lot = "A12"
  by-mass = "43.5 g/100g" # or by-volume = "46.8 ml/100g"
  tests = 3
  method = "rub-out"
  oil = "linseed-oil"

A count of what is on hand:

  [stock]
  counted = [{id = "raw-umber", mass = "250 g"}, {id = "chalk", none = true}]
  bought = [{id = "linseed-oil", volume = "500 ml"}]
  prices = [{id = "prussian-blue", price = "0.12/g"}]

A file with a fault is named with its line and does not count; the others do.`},
	{"json", "What stands in the JSON answers", `--format json answers in one object a command (many: one a line). It is a
contract: "version" rises when a key changes its meaning or goes; keys may be
added. Keys keep their order and carry their unit: mass_g, volume_ml,
density_g_per_ml, oil_g_per_100g_pigment. Fractions run from 0 to 1; a key with
percent in its name holds per cent. A range is {"low","typical","high"}, the
10th, 50th and 90th percentile; with --exact all three are the same.

mull, version 1:
  pigments[], extenders[], oils[], waxes[]
      id, name, mass_g{}, volume_ml{}, weigh_g (rounded to your balance; 0 for
      oils), parts, share, oil_absorption_g_per_100g{}, oil_absorption_method,
      evidence[] {source, demand_g_per_100g, weight}, own_tests[] (words on
      what your batch book taught)
  water_g, first_pour_g, first_pour_chance_over, step_g, step_drops,
  oil_typical_g, oil_most_g, pours[] {add_g, drops, total_g, chance_reached}
  oil_pigment_there_is_can_mend_g        with --have: the most oil it can still take
  paint_mass_g{}, paint_volume_ml{}      what is left after losses
  pvc{}, cpvc{}, reduced_pvc{}, body{}   fractions and ratios
  oil_g_per_100g_pigment{}, oil_mass_percent{}, oil_volume_percent{}
  density_g_per_ml{}, solids_mass_fraction{}, solids_volume_fraction{}, cost{}
  tubes {size_ml, fill, asked, count{}}, mulls {count, each_ml, slab_takes_ml}
  on_hand[] {id, needed_g, on_hand_g, short_g}   where your batch book counts it
  drying {oil_days{}, pigments[], not_known_for[]}, under_the_muller[]
  warnings[], cautions[] {about, text, materials[], source}
  sources[] {key, citation}, derivation[] (with --explain)

The other commands use the same names for the same things.`},
}

// addTopics adds the pages of help to the program.
func addTopics(root *cobra.Command) {
	for _, t := range topics {
		root.AddCommand(&cobra.Command{Use: t.name, Short: t.short, Long: t.text})
	}
}
