package source

var shop = []Source{
	{"navedtra-14251a", "NAVEDTRA 14251A, Steelworker training manual, chapter 5", "labour and overhead about 85 % of the cost of a weld, power under 1 %", Seen},
	{"operating-factors", "Structural connections handbook, operating factors of welding", "stick 30 %, semi-automatic 40 to 45 %, mechanised 50 %", SecondHand},
}
