package diagnose

// Network is a small Bayesian network of yes-or-no variables with any tables,
// for exact answers by enumeration: 2ⁿ terms. It serves to check the ways of
// reckoning used here against published networks.
type Network struct {
	Nodes []Node // parents stand before their children
}

// Node is one variable. True gives the chance of yes for each way its parents
// can stand, the first parent being the lowest bit of the index.
type Node struct {
	Name    string
	Parents []int // indices of nodes
	True    []float64
}

// Marginals returns the chance of yes of every node given the evidence, and the
// chance of the evidence itself. With evidence that cannot be, the marginals
// are all 0.
func (n Network) Marginals(evidence map[string]bool) (marginals []float64, chance float64) {
	marginals = make([]float64, len(n.Nodes))
	for state := range 1 << len(n.Nodes) {
		p := n.joint(state, evidence)
		if p == 0 {
			continue
		}
		chance += p
		for i := range n.Nodes {
			if state>>i&1 == 1 {
				marginals[i] += p
			}
		}
	}
	if chance > 0 {
		for i := range marginals {
			marginals[i] /= chance
		}
	}
	return marginals, chance
}

// joint is the chance of one state of all nodes, 0 if it contradicts the
// evidence. Bit i of state is node i.
func (n Network) joint(state int, evidence map[string]bool) float64 {
	p := 1.0
	for i, node := range n.Nodes {
		yes := state>>i&1 == 1
		if want, known := evidence[node.Name]; known && want != yes {
			return 0
		}
		row := 0
		for bit, parent := range node.Parents {
			row |= (state >> parent & 1) << bit
		}
		if yes {
			p *= node.True[row]
		} else {
			p *= 1 - node.True[row]
		}
	}
	return p
}
