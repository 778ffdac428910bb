/** The usual cautions of the trade, for every paper that goes to the site. Common practice, no source. */
export const cautions: readonly string[] = [
  'Light in fibres cannot be seen and can harm eyes. Never look into a fibre, plug or adapter, nor through a magnifier without a filter; make dark first and prove it with a meter.',
  'Never couple a source into a fibre that equipment still receives from, nor a strong sender into a receiver or meter without an attenuator: find out first what is live, and who must agree to its being taken out.',
  'Strong light burns dirty plugs and can light what lies before them: switch it off before plugs are opened, inspected or mated.',
  'Glass shards cut and cannot be found again: eye protection, a dark mat, a closed and marked box for every piece, no food or drink, hands washed before they touch the eyes.',
  'Solvents and splicers: air, and no flame nor spark near them.',
  'Ladders, traffic, live electrical parts, ducts and chambers where air may be foul: work as the site allows, and not alone where it asks for two.',
  'This paper replaces neither training nor a permit. Local codes, the rules of the site and licensed practice decide.',
];
