/** Signs of the drawing: what hands touch along a fibre. */
import type { Sign } from '../drawing.ts';

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
      return <path class="sign" d={`M${x - 10} ${y - 7}h20v14h-20z`} />;
    case 'splitter':
      return <path class="sign filled" d={`M${x - 8} ${y}L${x + 8} ${y - 8}V${y + 8}Z`} />;
    default:
      return null;
  }
}
