/** Signs of the drawing: what hands touch along a fibre. */
import type { Sign } from '../elements.ts';

interface SignProps {
  readonly sign: Sign;
  readonly x: number;
  readonly y: number;
}

export function SignShape({ sign, x, y }: SignProps) {
  switch (sign) {
    case 'pair':
      return (
        <path class="sign" d={`M${x - 7} ${y - 7}h5.5v14h-5.5zM${x + 1.5} ${y - 7}h5.5v14h-5.5z`} />
      );
    case 'plug':
      return <path class="sign" d={`M${x - 2.75} ${y - 7}h5.5v14h-5.5z`} />;
    case 'fusion':
      return <path class="sign filled" d={`M${x - 6} ${y}l6 -6l6 6l-6 6z`} />;
    case 'splice':
      return <path class="sign" d={`M${x - 6} ${y}l6 -6l6 6l-6 6z`} />;
    case 'part':
      return <path class="sign" d={`M${x - 9} ${y - 7}h18v14h-18z`} />;
    case 'splitter':
      return <path class="sign" d={`M${x - 8} ${y}L${x + 8} ${y - 8}V${y + 8}Z`} />;
    case 'mux-in':
      return <Mux x={x} y={y} branches={-1} />;
    case 'mux-out':
      return <Mux x={x} y={y} branches={1} />;
    case 'attenuator':
      return <path class="sign" d={`M${x - 9} ${y - 7}h18v14h-18zM${x - 9} ${y - 7}l18 14`} />;
    default:
      return null;
  }
}

interface MuxProps {
  readonly x: number;
  readonly y: number;
  /** On which side its branches are, a wavelength each: −1 towards A, 1 towards B. */
  readonly branches: -1 | 1;
}

/** A blunt wedge; the branches stand out of its broad side. */
function Mux({ x, y, branches }: MuxProps) {
  const [blunt, broad, end] = [x - 7 * branches, x + 5 * branches, x + 10 * branches];
  return (
    <path
      class="sign"
      d={`M${blunt} ${y - 3}V${y + 3}L${broad} ${y + 8}V${y - 8}ZM${broad} ${y - 5}H${end}M${broad} ${y + 5}H${end}`}
    />
  );
}
